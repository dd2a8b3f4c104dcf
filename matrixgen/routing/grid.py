"""A grid over a plate, by whose cells what lies near a straight piece is found."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from math import floor

from matrixgen.model.geometry import Point

MOST_CELLS = 128
"""How many cells a grid has across at most: on a plate of many metres the cells are larger."""

GridCell = tuple[int, int]


class Grid:
    """Square cells of some millimetres, numbered to the right and down."""

    def __init__(self, least_mm: float, extent_mm: float) -> None:
        self._mm = max(least_mm, extent_mm / MOST_CELLS)

    def along(self, start: Point, end: Point, within: float = 0.0) -> Iterator[GridCell]:
        """Yield each cell once that a straight piece goes through, or comes so near to.

        `within` is counted to the right and down, as squares are, not as the crow flies.
        """
        (x, y), (u, v) = (start, end) if start <= end else (end, start)
        slope, mm = (v - y) / (u - x) if u > x else 0.0, self._mm
        for column in range(floor((x - within) / mm), floor((u + within) / mm) + 1):
            into = min(max(x, column * mm - within), u)
            out = max(min(u, (column + 1) * mm + within), x)
            one, other = (y + (into - x) * slope, y + (out - x) * slope) if u > x else (y, v)
            low, high = (one, other) if one <= other else (other, one)
            for row in range(floor((low - within) / mm), floor((high + within) / mm) + 1):
                yield column, row

    def over(self, left: float, top: float, right: float, bottom: float) -> list[GridCell]:
        """Return the cells that an upright rectangle lies in."""
        columns, rows = (
            range(floor(low / self._mm), floor(high / self._mm) + 1)
            for low, high in ((left, right), (top, bottom))
        )
        return list(product(columns, rows))


def extent_of(points: list[Point]) -> float:
    """Return how wide or high some points lie from each other, whichever is more."""
    return max((max(ones) - min(ones) for ones in zip(*points, strict=True)), default=0.0)
