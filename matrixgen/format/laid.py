"""A statement as it will be written: its lines, still without comments."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.parts import Part, spaced
from matrixgen.format.wrap import GOES_ON
from matrixgen.record import Record


class Laid(Record):
    """A statement's parts, its lines without indentation, and how far the first is indented.

    There is a line for each part, or all lines are those of one part.
    """

    parts: tuple[Part, ...]
    lines: tuple[str, ...]
    indent: int


def laid(parts: tuple[Part, ...], first: Sequence[str], indent: int) -> Laid:
    """Return a statement with the given lines for its first part, its other parts plainly."""
    others = [f"{GOES_ON} {spaced(part.words)}" for part in parts[1:]]
    return Laid(parts, (*first, *others), indent)


def plainly(parts: tuple[Part, ...], indent: int) -> Laid:
    """Return a statement in which nothing is aligned."""
    return laid(parts, [spaced(parts[0].words)], indent)
