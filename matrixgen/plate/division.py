"""A plate in parts that have room on a printer's bed: first in strips, then each strip across them.

Seams across the whole plate part the strips, and each strip has seams down of its own. A plate that
is not too deep is one strip.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from matrixgen.model.geometry import Point
from matrixgen.model.rings import sides_of
from matrixgen.plate.openings import Circle, Opening
from matrixgen.plate.outline import flat
from matrixgen.plate.seams import NoLine, Room, Seam, fewest_parts, seams_of
from matrixgen.plate.shape import PlateShape
from matrixgen.record import Record, changed

Size = tuple[float, float]


class Division(Record):
    """Seams `across` a plate, from above to below, and those `down` each strip, from the left."""

    across: tuple[Seam, ...]
    down: tuple[tuple[Seam, ...], ...]

    @property
    def seams(self) -> tuple[Seam, ...]:
        """All of them."""
        return (*self.across, *(seam for strip in self.down for seam in strip))

    @property
    def strips(self) -> tuple[int, ...]:
        """How many parts each strip is in."""
        return tuple(len(seams) + 1 for seams in self.down)


WHOLE = Division((), ((),))
"""A plate in one part."""


class Undivided(Record):
    """Why a plate is not divided: which way a line would go, and between which places.

    They are in millimetres from the plate's left edge, or from its upper one where the line would
    go across; None where there would be too many parts.
    """

    way: Literal["down", "across"]
    between: Size | None


def divided(shape: PlateShape, bed: Size, lap: float) -> Division | Undivided:
    """Return how a plate is divided so that each part, with its lap, has room on a bed.

    A bed is as wide and deep as it says, or lies across: what may give fewer parts is tried first.
    """
    left, top, right, bottom = shape.bounds

    def fewest(bed: Size) -> int:
        return _fewest(right - left, bed[0], lap) * _fewest(bottom - top, bed[1], lap)

    tried = []
    for each in sorted((bed, bed[::-1]), key=fewest):
        found = _divided(shape, each, lap)
        if isinstance(found, Division):
            return found
        tried.append(found)
    return tried[0]


def _fewest(length: float, most: float, lap: float) -> int:
    return 1 if length <= most else fewest_parts(length, most - lap)


def _divided(shape: PlateShape, bed: Size, lap: float) -> Division | Undivided:
    sides = tuple(sides_of(flat(shape.outline)))
    whole = Room(bounds=shape.bounds, openings=shape.openings, sides=sides)
    across = _seams(_exchanged(whole), bed[1], lap)
    if isinstance(across, NoLine):
        return Undivided("across", _from(across, whole.bounds[1]))
    across = tuple(tuple((x, y) for y, x in seam) for seam in across)
    down = []
    for strip in _strips(whole, across):
        seams = _seams(strip, bed[0], lap)
        if isinstance(seams, NoLine):
            return Undivided("down", _from(seams, whole.bounds[0]))
        down.append(seams)
    return Division(across, tuple(down))


def _seams(room: Room, most: float, lap: float) -> tuple[Seam, ...] | NoLine:
    """Return the seams that go down a room, if it is wider than a bed."""
    return seams_of(room, most - lap) if room.bounds[2] - room.bounds[0] > most else ()


def _from(no_line: NoLine, edge: float) -> Size | None:
    """Return where there is no line, from the edge of the plate on."""
    if no_line.between is None:
        return None
    low, high = no_line.between
    return low - edge, high - edge


def _strips(whole: Room, across: tuple[Seam, ...]) -> Iterator[Room]:
    """Yield the rooms between seams that go across, from above to below."""
    left, top, right, bottom = whole.bounds
    for above, below in pairwise((None, *across, None)):
        first = min(y for _, y in above) if above else top
        last = max(y for _, y in below) if below else bottom
        yield Room(
            bounds=(left, first, right, last),
            openings=tuple(
                one
                for one in whole.openings
                if (above is None or _is_below(one.middle, above))
                and (below is None or not _is_below(one.middle, below))
            ),
            ends=tuple(seam for seam in (above, below) if seam),
            sides=whole.sides,
        )


def _is_below(at: Point, seam: Seam) -> bool:
    """Whether a place is below a seam that goes across: a line up from it meets it an odd time."""
    met = 0
    for (x, y), (u, v) in pairwise(seam):
        met += y == v < at[1] and min(x, u) <= at[0] < max(x, u)
    return met % 2 == 1


def _exchanged(room: Room) -> Room:
    """Return a room whose x and y are exchanged."""
    left, top, right, bottom = room.bounds
    openings = tuple(map(_opening_exchanged, room.openings))
    sides = tuple((start[::-1], end[::-1]) for start, end in room.sides)
    return Room(bounds=(top, left, bottom, right), openings=openings, sides=sides)


def _opening_exchanged(one: Opening) -> Opening:
    middle = one.middle[::-1]
    if isinstance(one, Circle):
        return changed(one, middle=middle)
    return changed(one, middle=middle, width=one.height, height=one.width, turned=-one.turned)
