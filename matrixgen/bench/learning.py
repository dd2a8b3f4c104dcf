"""The dialogue of `learn`, without a terminal: presses and typed words in, lines to say out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.bench.learn import Remark, remark_of
from matrixgen.bench.press import ClosedPairs

WORDS = "Enter: no response | skip | back | again | stop"
NOTHING: ClosedPairs = frozenset()


class Learning:
    """Keys that are asked for one after the other; `presses` has what each closed so far."""

    def __init__(self, keys: Sequence[str]) -> None:
        self._keys = list(keys)
        self._at = 0
        self.presses: dict[str, ClosedPairs] = {}

    @property
    def asked(self) -> str | None:
        """The key that is asked for, None once it is over."""
        return self._keys[self._at] if self._at < len(self._keys) else None

    @property
    def is_over(self) -> bool:
        """Whether every key was asked for."""
        return self.asked is None

    @property
    def missing(self) -> list[str]:
        """The keys that were skipped."""
        return [key for key in self._keys if key not in self.presses]

    @property
    def marks(self) -> dict[str, str]:
        """What stands at each key of the plate: `+` learned, `x` odd, `?` asked for."""
        signs = {key: "x" if self._remark(key) else "+" for key in self.presses}
        return signs if self.asked is None else signs | {self.asked: "?"}

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        yield "the soldering order cannot be measured: wires visit keys in the order of the plate"
        yield from self._ask()

    def pressed(self, press: ClosedPairs) -> Iterator[str]:
        """Take a press as that of the key that is asked for."""
        key = self.asked
        if key is None:
            return
        self.presses[key] = press
        remark = self._remark(key)
        pins = sorted({pin for pair in press for pin in pair})
        how = ", both ways: no diode" if len(press) == 2 and len(pins) == 2 else ""
        yield f"`{key}` {remark.says}" if remark else f"`{key}`: {' and '.join(pins)}{how}"
        self._at += 1
        yield from self._ask()

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed."""
        word, key = text.strip(), self.asked
        if key is None or word == "stop":
            self._at = len(self._keys)
        elif not word:
            yield from self.pressed(NOTHING)
        elif word == "skip":
            self.presses.pop(key, None)
            self._at += 1
            yield from self._ask()
        elif word in ("back", "again"):
            self._at = max(self._at - 1, 0)
            self.presses.pop(self._keys[self._at], None)
            yield from self._ask()
        else:
            yield f"type one of: {WORDS}"

    def _remark(self, key: str) -> Remark | None:
        before = dict(self.presses)
        own = before.pop(key)
        return remark_of(key, own, before)

    def _ask(self) -> Iterator[str]:
        if self.asked is not None:
            yield f"press `{self.asked}` ({WORDS})"
