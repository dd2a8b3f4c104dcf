"""Rows as a person reads them: keys beside each other, also where columns are staggered."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from matrixgen.model.geometry import Point

NEXT_COLUMN = 1.6
"""Key units to the next key of a row, at most, if it is not level: a wide key and some room."""

STAGGER = 0.49
"""Key units between neighbours of a row, at most; half a unit belongs to either row."""


def bands_of(middles: Sequence[Point], level: float) -> list[list[Point]]:
    """Return the rows from the top, each from the left.

    Keys whose y differs by at most `level` are in one row, however far apart; others are if each
    is a bit higher or lower than the one on its left.
    """
    order = sorted(middles, key=lambda middle: (middle[1], middle[0]))
    parents = list(range(len(order)))
    for number in range(1, len(order)):
        if order[number][1] - order[number - 1][1] <= level:
            _join(parents, number - 1, number)
    for number, middle in enumerate(order):
        following = _next(order, middle)
        if following is not None:
            _join(parents, number, following)
    bands: dict[int, list[Point]] = {}
    for number, middle in enumerate(order):
        bands.setdefault(_root(parents, number), []).append(middle)
    found = sorted(bands.values(), key=_height)
    return [sorted(band) for band in found]


def _next(order: Sequence[Point], middle: Point) -> int | None:
    """Return which key goes on with the row to the right: the one that is the most level."""
    x, y = middle
    first = bisect_left(order, (y - STAGGER), key=lambda one: one[1])
    last = bisect_right(order, (y + STAGGER), key=lambda one: one[1])
    beside = [n for n in range(first, last) if 0.5 < order[n][0] - x <= NEXT_COLUMN]
    return min(beside, key=lambda n: (abs(order[n][1] - y), order[n][0]), default=None)


def _height(band: Sequence[Point]) -> tuple[float, float]:
    """Return what sorts rows from the top: the mean of their middles."""
    return sum(y for _, y in band) / len(band), band[0][0]


def _join(parents: list[int], one: int, other: int) -> None:
    parents[_root(parents, other)] = _root(parents, one)


def _root(parents: list[int], number: int) -> int:
    while parents[number] != number:
        parents[number] = parents[parents[number]]
        number = parents[number]
    return number
