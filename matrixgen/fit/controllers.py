"""Which controllers a keyboard fits on, and what stands in the way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from matrixgen.boards import Mounted, Profile
from matrixgen.fit.pins import most_lines
from matrixgen.fit.shapes import Size
from matrixgen.model import Diagnostic
from matrixgen.record import Record

Verdict = Literal["fits", "fits with second duties", "fits if folded", "too few pins"]

Mount = Callable[[Profile, Size], Mounted | None]
"""Puts the keyboard, in a matrix of this size, on a controller; None where it has too few pins."""

Check = Callable[[Mounted], Sequence[Diagnostic]]
"""What is found in a keyboard on one controller."""

OWN_COLUMN = frozenset({"pin-with-second-duty"})
"""What the table says in a column of its own."""


class Candidate(Record, kw_only=True):
    """One controller: the matrix it would have, its pins, and what stands in the way.

    `size` is the first of the sizes that fits, else the one with the fewest lines; `free` counts
    the pins that a line may end on with no second duty given up; `obstacles` is what `check` would
    find there.
    """

    profile: Profile
    size: Size
    pins: int
    free: int
    verdict: Verdict
    obstacles: tuple[Diagnostic, ...]

    @property
    def lines(self) -> int:
        """How many pins it takes."""
        return sum(self.size)

    @property
    def spare(self) -> int:
        """How many pins are left; below zero where so many are missing."""
        return self.pins - self.lines


def candidate(profile: Profile, sizes: Sequence[Size], mount: Mount, check: Check) -> Candidate:
    """Return how a keyboard fits on a controller, in the first of some sizes that does.

    The first size is the one that the keyboard has as it is.
    """
    fitting = ((size, mounted) for size in sizes if (mounted := mount(profile, size)))
    size, mounted = next(fitting, (min(sizes, key=sum), None))
    free = len(profile.free_pins)
    return Candidate(
        profile=profile,
        size=size,
        pins=most_lines(profile),
        free=free,
        verdict=_verdict(size, sizes[0], free, is_mounted=mounted is not None),
        obstacles=tuple(
            found for found in (check(mounted) if mounted else ()) if found.slug not in OWN_COLUMN
        ),
    )


def _verdict(size: Size, as_is: Size, free: int, *, is_mounted: bool) -> Verdict:
    if not is_mounted:
        return "too few pins"
    if size != as_is:
        return "fits if folded"
    return "fits" if sum(size) <= free else "fits with second duties"
