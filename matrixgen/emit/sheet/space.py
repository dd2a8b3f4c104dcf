"""What is drawn already, and whether a word or a thin line would touch it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import product
from math import floor
from typing import NamedTuple

from matrixgen.model.geometry import Point

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
    """Thick lines and rectangles, by cells of a grid."""

    def __init__(self) -> None:
        self._lines: dict[tuple[int, int], list[ThickLine]] = defaultdict(list)
        self._boxes: dict[tuple[int, int], list[Rectangle]] = defaultdict(list)

    def put_line(self, start: Point, end: Point, half: float) -> None:
        """Put in a line that reaches `half` millimetres to either side."""
        for cell in _cells(start, end, half):
            self._lines[cell].append(ThickLine(start, end, half))

    def put(self, box: Rectangle) -> None:
        """Put in a rectangle."""
        for cell in _cells((box.left, box.top), (box.right, box.bottom), 0.0, is_box=True):
            self._boxes[cell].append(box)

    def within(self, box: Rectangle) -> set[ThickLine]:
        """Return what is in or near a rectangle, rectangles as thick lines down their middle."""
        cells = list(_cells((box.left, box.top), (box.right, box.bottom), 0.0, is_box=True))
        found = {line for cell in cells for line in self._lines.get(cell, ())}
        return found | {_as_line(one) for cell in cells for one in self._boxes.get(cell, ())}

    def boxes_on(self, start: Point, end: Point, but: Point) -> bool:
        """Whether a thin line would cross a rectangle, but for those that a place is in."""
        return any(
            box.is_crossed(start, end) and not box.is_crossed(but, but)
            for cell in _cells(start, end, 0.0)
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


def _cells(
    start: Point, end: Point, half: float, *, is_box: bool = False
) -> Iterator[tuple[int, int]]:
    """Yield the cells that a thick line or the rectangle between two corners lies in."""
    (x, y), (u, v) = start, end
    steps = 1 if is_box else floor(max(abs(u - x), abs(v - y)) / CELL_MM) + 1
    seen: set[tuple[int, int]] = set()
    for number in range(steps):
        a, b = number / steps, (number + 1) / steps
        across = sorted((x + (u - x) * a, x + (u - x) * b))
        down = sorted((y + (v - y) * a, y + (v - y) * b))
        columns, rows = (
            range(floor((low - half) / CELL_MM), floor((high + half) / CELL_MM) + 1)
            for low, high in (across, down)
        )
        for cell in product(columns, rows):
            if cell not in seen:
                seen.add(cell)
                yield cell
