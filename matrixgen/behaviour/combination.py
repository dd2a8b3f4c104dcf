"""Keys that start the boot loader while they are down together."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

HOLD_MS = 1000
"""How long the keys of `boot-loader hold` must be down."""


@dataclass
class Combination:
    """Which keys those are, and since when they are down.

    A chatter that is over within `release_ms` does not end it.
    """

    keys: Sequence[str]
    release_ms: int
    since: int | None = None
    seen_ms: int = 0

    def starts(self, closed: Set[str], now_ms: int) -> bool:
        """Whether they have been down for long enough by now."""
        if self.keys and all(key in closed for key in self.keys):
            self.since = now_ms if self.since is None else self.since
            self.seen_ms = now_ms
            return now_ms - self.since >= HOLD_MS
        if now_ms - self.seen_ms >= self.release_ms:
            self.since = None
        return False
