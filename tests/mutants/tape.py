"""What was done to the engine and what it answered, so that a mutant can be asked the same.

While a tape is made, the model runs beside the engine and every answer is compared. After that, no
model is needed: a mutant that answers as the tape says answers as the model says.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from tests.firmware.chords import chords
from tests.firmware.fingers import a_wrap_later, moody_hands
from tests.firmware.host_build import HostKeyboard
from tests.firmware.meetings import Meetings, play
from tests.firmware.rarely import play_rarely
from tests.firmware.test_engine_and_oracle import Pair
from tests.mutants.workshop import Workshop

Entry = tuple[str, tuple[Any, ...], dict[str, Any], Any]
METHODS = (
    "restart",
    "close",
    "turn",
    "advance",
    "transport",
    "leds",
    "step",
    "take",
    "take_media",
    "current",
    "boot_loads",
    "faults",
)


EDGES_OF_A_CHORD = 5


class Recorder:
    """A keyboard that writes down what is done to it."""

    def __init__(self, keyboard: HostKeyboard, tape: list[Entry]) -> None:
        self._keyboard, self._tape = keyboard, tape
        self.crossings = keyboard.crossings

    def __getattr__(self, name: str) -> Callable[..., Any]:
        assert name in METHODS, name
        plain = getattr(self._keyboard, name)

        def noted(*words: Any, **named: Any) -> Any:
            answer = plain(*words, **named)
            self._tape.append((name, words, named, answer))
            return answer

        return noted


def record(workshop: Workshop, turns: int, name: str) -> list[Entry]:
    """Let hands of every kind play, and the scripts for a keyboard of that name.

    Engine and model are compared after each step.
    """
    tape: list[Entry] = []
    pair = Pair.__new__(Pair)
    pair.keyboard = workshop.keyboard
    pair.engine = Recorder(workshop.open(workshop.original), tape)  # type: ignore[assignment]
    pair.keys = sorted(pair.engine.crossings)
    sets = any(layer.together for layer in workshop.keyboard.layers)
    pair.knobs = [knob.name.text for knob in workshop.keyboard.knobs]
    for seed, begin in enumerate(range(0, turns, 600)):
        pair.restart()
        some = min(600, turns - begin)
        if sets and seed % 2:
            chords(pair, Random(seed), some // EDGES_OF_A_CHORD)
        elif seed % 3 == 2:
            play(pair, Random(seed), some, Meetings())
        else:
            moody_hands(pair, Random(seed), some)
            a_wrap_later(pair, Random(seed))
    if turns:
        play_rarely(pair, name)
    return tape


def first_difference(
    tape: list[Entry], keyboard: HostKeyboard, still: Callable[[], None]
) -> int | None:
    """Return where a keyboard answers otherwise than the tape; `still` is called now and then."""
    methods = {name: getattr(keyboard, name) for name in METHODS}
    for place, (name, words, named, answer) in enumerate(tape):
        if place % 1000 == 0:
            still()
        if methods[name](*words, **named) != answer:
            return place
    return None
