"""When each step of a script happens: steps in, moves of switches with their milliseconds out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.behaviour.edges import delays_ms
from matrixgen.model import Keyboard
from matrixgen.record import Record
from matrixgen.rehearse.happening import KeyMoved, LockTold
from matrixgen.rehearse.script import KnobTurn, Move, Step, Tap, Tell, Wait

TAP_MS = 30
"""How long a tapped key of a script is down, or as long as a press must last to count."""


STEP_MS = 2
"""How long a step of a knob takes to be reported: its key goes down, and up."""


class KnobMoved(Record):
    """A knob was turned by one state: `way` is 1 to the right and -1 to the left."""

    at_ms: int
    knob: str
    way: int


Moved = KeyMoved | KnobMoved | LockTold
"""What a finger or the computer does in a millisecond."""


class Planner:
    """Puts steps behind each other in time.

    No two switches move in the same millisecond: a scan would read them in an order that nobody
    wrote down. After a tap, the next step comes when the release has counted. So it does where a
    key moves again without a `wait` between: a script that is about chatter says how long it is.
    A knob turns by a state a millisecond, and not before the step before could be reported.
    """

    def __init__(self, keyboard: Keyboard) -> None:
        self.delays_ms = delays_ms(keyboard)
        self.at_ms = 0
        self.free_ms = 0
        self.counted_ms = 0
        self._states = {knob.name.text: knob.states for knob in keyboard.knobs}
        self._moved: set[str] = set()

    def begin_at(self, now_ms: int) -> None:
        """Let the next step happen no earlier."""
        self.at_ms = max(self.at_ms, now_ms)

    def moves(self, steps: Iterable[Step], tap_ms: int = TAP_MS) -> Iterator[Moved]:
        """Yield what fingers and the computer do; `at_ms` is then the end of the last step."""
        for step in steps:
            match step:
                case Wait():
                    self.at_ms += step.ms
                    self._moved.clear()
                case Move():
                    yield self._move(step.key, step.down)
                case KnobTurn():
                    yield from self._turn(step)
                case Tell():
                    self.at_ms = max(self.at_ms, self.free_ms)
                    self.free_ms = self.at_ms + 1
                    yield LockTold(self.at_ms, step.lock)
                case Tap():
                    yield self._move(step.key, True)
                    self.at_ms += max(tap_ms, self.delays_ms[True])
                    self._moved.discard(step.key)
                    yield self._move(step.key, False)
                    self.at_ms = self.counted_ms
                    self.free_ms = self.counted_ms + 1

    def _turn(self, step: KnobTurn) -> Iterator[KnobMoved]:
        states = self._states[step.knob]
        for _ in range(step.steps):
            self.at_ms = max(self.at_ms, self.free_ms)
            for _ in range(states):
                yield KnobMoved(self.at_ms, step.knob, step.way)
                self.at_ms += 1
            self.at_ms += STEP_MS - 1
            self.free_ms = self.at_ms

    def _move(self, key: str, down: bool) -> KeyMoved:
        if key in self._moved:
            self.at_ms = max(self.at_ms, self.counted_ms + 1)
        self._moved.add(key)
        self.at_ms = max(self.at_ms, self.free_ms)
        self.free_ms = self.at_ms + 1
        self.counted_ms = max(self.counted_ms, self.at_ms + self.delays_ms[down])
        return KeyMoved(self.at_ms, key, down)
