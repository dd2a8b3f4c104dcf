"""When each step of a script happens: steps in, moves of switches with their milliseconds out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.behaviour.edges import delays_ms
from matrixgen.model import Keyboard
from matrixgen.rehearse.happening import KeyMoved
from matrixgen.rehearse.script import Move, Step, Tap, Wait

TAP_MS = 30
"""How long a tapped key of a script is down, or as long as a press must last to count."""


class Planner:
    """Puts steps behind each other in time.

    No two switches move in the same millisecond: a scan would read them in an order that nobody
    wrote down. After a tap, the next step comes when the release has counted. So it does where a
    key moves again without a `wait` between: a script that is about chatter says how long it is.
    """

    def __init__(self, keyboard: Keyboard) -> None:
        self.delays_ms = delays_ms(keyboard)
        self.at_ms = 0
        self.free_ms = 0
        self.counted_ms = 0
        self._moved: set[str] = set()

    def begin_at(self, now_ms: int) -> None:
        """Let the next step happen no earlier."""
        self.at_ms = max(self.at_ms, now_ms)

    def moves(self, steps: Iterable[Step], tap_ms: int = TAP_MS) -> Iterator[KeyMoved]:
        """Yield what switches do; `at_ms` is then the end of the last step."""
        for step in steps:
            match step:
                case Wait():
                    self.at_ms += step.ms
                    self._moved.clear()
                case Move():
                    yield self._move(step.key, step.down)
                case Tap():
                    yield self._move(step.key, True)
                    self.at_ms += max(tap_ms, self.delays_ms[True])
                    self._moved.discard(step.key)
                    yield self._move(step.key, False)
                    self.at_ms = self.counted_ms
                    self.free_ms = self.counted_ms + 1

    def _move(self, key: str, down: bool) -> KeyMoved:
        if key in self._moved:
            self.at_ms = max(self.at_ms, self.counted_ms + 1)
        self._moved.add(key)
        self.at_ms = max(self.at_ms, self.free_ms)
        self.free_ms = self.at_ms + 1
        self.counted_ms = max(self.counted_ms, self.at_ms + self.delays_ms[down])
        return KeyMoved(self.at_ms, key, down)
