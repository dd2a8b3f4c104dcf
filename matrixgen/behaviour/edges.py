"""From switches that open and close to events in their true order.

An edge counts once its key has kept to it: a release for longer than `debounce`, a press for
longer than the time that the file may give, else at once. Until then the opposite edge takes it
back. Edges leave in the order of their first readings, so that one that counts waits for an earlier
one that does not yet.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import ceil

from matrixgen.behaviour.state import Event
from matrixgen.model import Keyboard

ROOM = 16
"""Events that are kept; while there are as many, edges are not taken from the switches."""


def delays_ms(keyboard: Keyboard) -> dict[bool, int]:
    """Return how many milliseconds begin until a press (True) or a release counts.

    That is one more than the file says, since the first may be nearly over when an edge is read.
    """
    press_ms = keyboard.press_ms.value if keyboard.press_ms else 0
    return {
        True: ceil(press_ms) + 1 if press_ms else 0,
        False: ceil(keyboard.debounce_ms.value) + 1,
    }


@dataclass
class Edges:
    """The events that nothing has been done about yet, oldest first; `settled` of them count."""

    delays_ms: dict[bool, int]
    closed: set[str] = field(default_factory=set)
    waiting: list[Event] = field(default_factory=list)
    settled: int = 0

    def _counts(self, event: Event, now_ms: int) -> bool:
        return now_ms - event.at_ms >= self.delays_ms[event.down]

    def read(self, key: str, is_closed: bool, now_ms: int) -> bool:
        """Take one key's reading; true if it is a new press."""
        if is_closed == (key in self.closed):
            return False
        opposite = next(
            (
                one
                for one in self.waiting[self.settled :]
                if one.key == key and not self._counts(one, now_ms)
            ),
            None,
        )
        if opposite is None and len(self.waiting) == ROOM:
            return False
        self.closed ^= {key}
        if opposite is not None:
            self.waiting.remove(opposite)
            return False
        self.waiting.append(Event(key, is_closed, now_ms))
        return is_closed

    def settle(self, now_ms: int) -> None:
        """Let those count that are due, and that no earlier one holds up."""
        while self.settled < len(self.waiting):
            if not self._counts(self.waiting[self.settled], now_ms):
                break
            self.settled += 1

    def known(self) -> list[Event]:
        """Return the events that count, oldest first."""
        return self.waiting[: self.settled]

    def known_until(self, now_ms: int) -> int:
        """Return up to when every event is known."""
        open_ones: Iterable[Event] = self.waiting[self.settled :]
        return next((event.at_ms for event in open_ones), now_ms)

    def done(self, event: Event) -> None:
        """Drop one that counts."""
        self.waiting.remove(event)
        self.settled -= 1
