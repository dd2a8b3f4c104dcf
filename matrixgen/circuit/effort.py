"""How long a search may take that could go on for years: counted in steps, the same anywhere."""

from __future__ import annotations

MOST_STEPS = 60_000
"""Keys that a search for ghosts may add to ways of current (a choice): it counts the ghosts of a
matrix of 110 keys without diodes, and takes a fraction of a second."""


class Effort:
    """The steps that are left to one search."""

    def __init__(self, most: int = MOST_STEPS) -> None:
        self._left = most

    def spend(self, steps: int = 1) -> bool:
        """Take some steps, and return whether there were so many left."""
        self._left -= steps
        return self._left >= 0

    @property
    def is_spent(self) -> bool:
        """Whether a search has ended because of it."""
        return self._left < 0
