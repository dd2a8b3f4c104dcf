"""Contacts to ground, as a knob has two: such a pin reads low whichever other pin is pulled."""

from __future__ import annotations

from collections.abc import Collection

from matrixgen.bench.serial.press import ClosedPairs

Grounded = frozenset[str]
"""Pins that are on ground."""

FEW = 4
"""A pin that reads low with more other pins than this is on its way to or from ground: keys that
are held down together join fewer (common practice, no source)."""


class Contacts:
    """Tells contacts to ground from keys, in what is closed after each change.

    `now` has the watched pins that are on ground, `known` all that ever were, and `meet` says
    whether two of those are joined while neither is on ground. A bench reports a contact in as many
    lines as there are other pins, so what lies between none and all of them is no state of its own.
    Two contacts that change within one report have no state between them: nobody saw which was
    first.
    """

    def __init__(self, pins: Collection[str], watched: Collection[str]) -> None:
        self.now: Grounded = frozenset()
        self.meet = False
        self.known: set[str] = set()
        self._pins, self._watched = frozenset(pins), tuple(watched)

    def see(self, closed: ClosedPairs) -> ClosedPairs:
        """Take what is closed now; return it without what contacts to ground close."""
        lows = {pin: {low for low, read in closed if read == pin} for pin in self._watched}
        on_ground = frozenset(pin for pin, low in lows.items() if low == self._pins - {pin})
        self.known |= on_ground
        if not any(self._is_between(pin, low) for pin, low in lows.items() if pin not in on_ground):
            self.now = on_ground
            off = self.known - on_ground
            self.meet = any({*pair} <= off and pair[::-1] in closed for pair in closed)
        return frozenset(pair for pair in closed if pair[1] not in self.known)

    def _is_between(self, pin: str, low: set[str]) -> bool:
        """Whether a pin that is not on ground is on its way there or back."""
        return bool(low - self.known) if pin in self.known else len(low) > FEW
