"""What was made of the very same things before: revisions of a file share most of their parts.

Things are the same here if they are one object, which takes no time to find out. Whoever asks makes
the same of them each time, and changes none of them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")

MOST_KEPT = 8
"""How much is kept: of the last few versions of a file, and of the sides of a merge."""


class OfSame(Generic[T]):
    """The last few things that were made, each beside what it was made of."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, tuple[tuple[object, ...], T]] = {}

    def get(self, *of: object, also: Hashable = None) -> T | None:
        """Return what was made of these very objects, and of what is equal to `also`, if kept."""
        kept = self._kept.get((also, *map(id, of)))
        return kept[1] if kept else None

    def keep(self, made: T, *of: object, also: Hashable = None) -> None:
        """Keep it, with the objects themselves: no others can then be in their places."""
        if len(self._kept) >= MOST_KEPT:
            del self._kept[next(iter(self._kept))]
        self._kept[also, *map(id, of)] = (of, made)

    def made(self, make: Callable[[], T], *of: object, also: Hashable = None) -> T:
        """Return what `make` makes of some objects, or has made."""
        found = self.get(*of, also=also)
        if found is None:
            self.keep(found := make(), *of, also=also)
        return found
