"""From what is closed now to whole presses: contacts bounce, and a key may close several pairs."""

from __future__ import annotations

from collections.abc import Collection

from matrixgen.bench.serial.protocol import PinPair

STEADY_MS = 40
"""How long nothing may change for a press to count: longer than contacts chatter (5 ms is usual,
common practice, no source) and than the bench takes to read every pin."""

ClosedPairs = frozenset[PinPair]


def pins_of(closed: ClosedPairs) -> frozenset[str]:
    """Return the pins of some pairs."""
    return frozenset(pin for pair in closed for pin in pair)


class Presses:
    """Watches what is closed beyond what is closed at rest.

    A press is reported once. While it lasts nothing else is, unless all was open in between, or
    `joins` is set: then a key that joins one that is held down is reported with it.
    """

    def __init__(self, rest: ClosedPairs) -> None:
        self.rest = rest
        self.joins = False
        self._now: ClosedPairs = frozenset()
        self._most: ClosedPairs = frozenset()
        self._since = 0.0
        self._reported: ClosedPairs | None = None
        self._was_open = False

    def forget(self, pins: Collection[str]) -> None:
        """Leave out what some pins read: they turned out to be no key's."""
        self._now, self._most = (
            frozenset(pair for pair in pairs if pair[1] not in pins)
            for pairs in (self._now, self._most)
        )

    def see(self, now_ms: float, closed: ClosedPairs) -> ClosedPairs | None:
        """Return what a press closes once it is steady, or once it ends before; else None."""
        added = closed - self.rest
        if added != self._now:
            self._now, self._since = added, now_ms
            self._most |= added
            self._was_open |= not added
        if now_ms - self._since < STEADY_MS:
            return None
        return self._held(added) if added else self._ended()

    def _held(self, added: ClosedPairs) -> ClosedPairs | None:
        is_new = self._reported is None or (
            (self._was_open or self.joins) and not added <= self._reported
        )
        if not is_new:
            return None
        self._reported, self._most, self._was_open = added, frozenset(), False
        return added

    def _ended(self) -> ClosedPairs | None:
        most, reported = self._most, self._reported
        self._most, self._reported, self._was_open = frozenset(), None, False
        return most if most and reported is None else None
