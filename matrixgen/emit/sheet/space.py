"""What is drawn already, and whether a word or a thin line would touch it."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from matrixgen.model.geometry import Point
from matrixgen.routing.grid import Grid, GridCell

CELL_MM = 10.0


class Rectangle(NamedTuple):
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Rectangle:
        """Return it with each side so far out."""
        return Rectangle(self.left - by, self.top - by, self.right + by, self.bottom + by)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, clockwise from the top left one."""
        left, top, right, bottom = self
        return (left, top), (right, top), (right, bottom), (left, bottom)

    def is_crossed(self, start: Point, end: Point) -> bool:
        """Whether a straight piece has a point in it: clipped by each pair of sides in turn."""
        first, last = 0.0, 1.0
        for side in (0, 1):
            step = end[side] - start[side]
            near, far = self[side] - start[side], self[side + 2] - start[side]
            if step == 0:
                if near > 0 or far < 0:
                    return False
                continue
            low, high = sorted((near / step, far / step))
            first, last = max(first, low), min(last, high)
        return first <= last


class ThickLine(NamedTuple):
    """A line that reaches `half` millimetres to either side."""

    start: Point
    end: Point
    half: float


class Space:
    """Thick lines and rectangles on a plate of some millimetres, by cells of a grid."""

    def __init__(self, extent_mm: float) -> None:
        self._grid = Grid(CELL_MM, extent_mm)
        self._lines: dict[GridCell, dict[ThickLine, None]] = defaultdict(dict)
        self._boxes: dict[GridCell, dict[Rectangle, None]] = defaultdict(dict)

    def put_line(self, start: Point, end: Point, half: float) -> None:
        """Put in a line that reaches `half` millimetres to either side."""
        for cell in self._grid.along(start, end, half):
            self._lines[cell][ThickLine(start, end, half)] = None

    def put(self, box: Rectangle) -> None:
        """Put in a rectangle."""
        for cell in self._grid.over(*box):
            self._boxes[cell][box] = None

    def within(self, box: Rectangle) -> set[ThickLine]:
        """Return what is in or near a rectangle, rectangles as thick lines down their middle."""
        cells = self._grid.over(*box)
        found = {line for cell in cells for line in self._lines.get(cell, ())}
        return found | {_as_line(one) for cell in cells for one in self._boxes.get(cell, ())}

    def boxes_on(self, start: Point, end: Point, but: Point) -> bool:
        """Whether a thin line would cross a rectangle, but for those that a place is in."""
        return any(
            box.is_crossed(start, end) and not box.is_crossed(but, but)
            for cell in self._grid.along(start, end)
            for box in self._boxes.get(cell, ())
        )


def _as_line(box: Rectangle) -> ThickLine:
    """Return a rectangle as a line along it that reaches at least as far to either side."""
    width, height = box.right - box.left, box.bottom - box.top
    half = min(width, height) / 2
    if width > height:
        y = (box.top + box.bottom) / 2
        return ThickLine((box.left + half, y), (box.right - half, y), half)
    x = (box.left + box.right) / 2
    return ThickLine((x, box.top + half), (x, box.bottom - half), half)
