"""A statement as it will be written: its lines, still without comments."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.stretches import Stretch, spaced
from matrixgen.format.wrap import GOES_ON
from matrixgen.record import Record


class Laid(Record):
    """A statement's stretches, its lines without indentation, and how far the first is indented.

    There is a line for each stretch, or all lines are those of one stretch.
    """

    stretches: tuple[Stretch, ...]
    lines: tuple[str, ...]
    indent: int


def laid(stretches: tuple[Stretch, ...], first: Sequence[str], indent: int) -> Laid:
    """Return a statement with the given lines for its first stretch, the others plainly."""
    others = [f"{GOES_ON} {spaced(stretch.words)}" for stretch in stretches[1:]]
    return Laid(stretches, (*first, *others), indent)


def plainly(stretches: tuple[Stretch, ...], indent: int) -> Laid:
    """Return a statement in which nothing is aligned."""
    return laid(stretches, [spaced(stretches[0].words)], indent)
