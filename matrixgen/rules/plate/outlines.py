"""Which keys cover the same spot of the plate: the separating axis theorem on their outlines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from math import cos, floor, radians, sin

from matrixgen.model import Key
from matrixgen.model.geometry import Point, corners_of
from matrixgen.record import Record

ROUNDING = 0.02
"""Key units that outlines may share unreported: the figures of a cluster are rounded."""


def overlaps(keys: Iterable[Key]) -> Iterator[tuple[Key, Key]]:
    """Yield each key that covers part of an earlier one, with the first such key."""
    outlines = [KeyOutline(key) for key in keys]
    size = max([2.0, *(outline.extent / 8 for outline in outlines)])
    earlier: dict[tuple[int, int], list[KeyOutline]] = {}
    for outline in outlines:
        cells = list(outline.grid_cells(size))
        near = {id(other): other for cell in cells for other in earlier.get(cell, ())}
        covered = next((other for other in near.values() if outline.overlaps(other)), None)
        if covered:
            yield outline.key, covered.key
        for cell in cells:
            earlier.setdefault(cell, []).append(outline)


class KeyOutline(Record):
    """A key's four corners on the plate, in key units, and its upright bounding box."""

    key: Key

    @cached_property
    def corners(self) -> list[Point]:
        """Its corners, turned with its cluster."""
        return corners_of(self.key)

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, right, top and bottom of the bounding box."""
        return (*_range(x for x, _ in self.corners), *_range(y for _, y in self.corners))

    @property
    def extent(self) -> float:
        """The longer side of the bounding box."""
        left, right, top, bottom = self.box
        return max(right - left, bottom - top)

    def grid_cells(self, size: float) -> Iterator[tuple[int, int]]:
        """Yield the squares of a grid that the bounding box touches."""
        left, right, top, bottom = self.box
        for x in range(floor(left / size), floor(right / size) + 1):
            for y in range(floor(top / size), floor(bottom / size) + 1):
                yield x, y

    def may_overlap(self, other: KeyOutline) -> bool:
        """Whether the bounding boxes overlap: quick, and false for most neighbours."""
        left, right, top, bottom = self.box
        other_left, other_right, other_top, other_bottom = other.box
        return (
            min(right, other_right) - max(left, other_left) > ROUNDING
            and min(bottom, other_bottom) - max(top, other_top) > ROUNDING
        )

    def shadow(self, axis: Point) -> tuple[float, float]:
        """Return the stretch that the outline covers along an axis of length 1."""
        return _range(x * axis[0] + y * axis[1] for x, y in self.corners)

    def overlaps(self, other: KeyOutline) -> bool:
        """Whether no straight line separates the two."""
        if not self.may_overlap(other):
            return False
        for key in (self.key, other.key):
            angle = radians(key.turned)
            for axis in ((cos(angle), sin(angle)), (-sin(angle), cos(angle))):
                low, high = self.shadow(axis)
                other_low, other_high = other.shadow(axis)
                if min(high, other_high) - max(low, other_low) <= ROUNDING:
                    return False
        return True


def _range(values: Iterable[float]) -> tuple[float, float]:
    found = list(values)
    return min(found), max(found)
