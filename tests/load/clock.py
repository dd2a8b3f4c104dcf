"""A clock for whoever waits: it stands still until somebody sleeps, and then goes at once."""

from __future__ import annotations

from collections.abc import Callable


class Clock:
    """In place of the module `time`; what is to come later comes while somebody waits for it."""

    def __init__(self) -> None:
        self.now = 0.0
        self._later: list[tuple[float, Callable[[], object]]] = []

    def later(self, seconds: float, what: Callable[[], object]) -> None:
        """Do something once so many seconds have been waited."""
        self._later.append((self.now + seconds, what))

    def monotonic(self) -> float:
        return self.now

    def sleep(self, seconds: float) -> None:
        self.now += seconds
        due = [what for at, what in self._later if at <= self.now]
        self._later = [(at, what) for at, what in self._later if at > self.now]
        for what in due:
            what()
