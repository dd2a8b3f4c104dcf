"""Scripts for keys that know time: what is pressed when, and what engine and model then report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matrixgen.model import Action, Keyboard, Media, Press, TapHold, WithModifier
from tests.firmware.build_model import keyboard
from tests.firmware.pads import LEFT_CTRL
from tests.firmware.test_engine_and_oracle import Pair
from tests.reports import any_number

A, B, J, K = 0x04, 0x05, 0x0D, 0x0E
ONE, TWO = 0x1E, 0x1F
DEBOUNCE_MS = 5


def only_types(action: Action) -> bool:
    """Whether an action sends a key without modifiers, or a media key, or is one that is over."""
    return isinstance(action, Media | WithModifier) or (
        isinstance(action, Press) and action.usage != 0 and action.modifiers == 0
    )


class Fingers:
    """A script of `+KEY`, `-KEY` and milliseconds, and the reports that leave meanwhile.

    Those of media keys are in `media`.
    """

    def __init__(self, pair: Pair) -> None:
        self.pair = pair
        self.media: list[bytes] = []

    def __call__(self, *steps: str | int) -> list[bytes]:
        reports: list[bytes] = []
        for step in steps:
            if isinstance(step, int):
                for _ in range(step):
                    reports += self._millisecond()
            else:
                self.pair.close(step[1:], step[0] == "+")
        return reports

    def _millisecond(self) -> list[bytes]:
        got = []
        for _ in range(3):
            self.pair.step()
            report = self.pair.take()
            got += [] if report is None else [report]
            media = self.pair.take_media()
            self.media += [] if media is None else [media]
        self.pair.advance(1)
        return got


def board(
    base: Mapping[str, Action],
    layers: Mapping[str, Mapping[str, Action]] | None = None,
    needs: Mapping[str, Sequence[str]] | None = None,
    **settings: float,
) -> Keyboard:
    """A row of the keys that `base` names, with J, K and L as letters at the right."""
    base = {**base, "J": Press(J), "K": Press(K), "L": Press(0x0F)}
    return keyboard([list(base)], {"base": base, **(layers or {})}, needs=needs, **settings)  # type: ignore[arg-type]


def down(*usages: int, modifiers: int = 0) -> bytes:
    return any_number(modifiers, *usages)


UP = down()
CTRL_ON_A = {"A": TapHold(Press(A), Press(0, LEFT_CTRL))}
