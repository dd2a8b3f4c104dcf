"""Convex shapes: grown by a distance, and whether a straight piece crosses one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import cos, hypot, pi, sin

from matrixgen.model.geometry import Bounds, Point, bounds_of
from matrixgen.record import Record

ConvexSide = tuple[float, float, float]
"""The outward unit normal of a side, and how far out it is."""


class Convex(Record):
    """A convex polygon: its corners, and its sides."""

    corners: tuple[Point, ...]
    sides: tuple[ConvexSide, ...]

    @property
    def bounds(self) -> Bounds:
        """The upright rectangle round it."""
        return bounds_of(self.corners)

    def grown(self, by: float) -> Convex:
        """Return it with each side so far out, or in where `by` is negative; it stays pointed."""
        moved = [(x, y, out + by) for x, y, out in self.sides]
        return Convex(
            tuple(_meeting(one, other) for one, other in pairwise((moved[-1], *moved))),
            tuple(moved),
        )

    def is_crossed(self, start: Point, end: Point) -> bool:
        """Whether a straight piece has a point inside or on it."""
        return is_in_part_within(self.sides, start, end)


def is_in_part_within(sides: Iterable[ConvexSide], start: Point, end: Point) -> bool:
    """Whether a straight piece has a point inside or on all sides: clipped by each in turn."""
    first, last = 0.0, 1.0
    for x, y, out in sides:
        before = out - x * start[0] - y * start[1]
        after = out - x * end[0] - y * end[1]
        if before < 0 and after < 0:
            return False
        if before < 0:
            first = max(first, before / (before - after))
        elif after < 0:
            last = min(last, before / (before - after))
    return first <= last


def overlap(one: Convex, other: Convex, more_than: float = 0.0) -> bool:
    """Whether two shapes reach into each other by more than that.

    If so, no side parts them (separating axis theorem).
    """
    return not any(
        all(x * u + y * v >= out - more_than for u, v in them.corners)
        for us, them in ((one, other), (other, one))
        for x, y, out in us.sides
    )


def convex(corners: Sequence[Point]) -> Convex:
    """Return the shape of these corners, which go round it clockwise as y grows downwards."""
    return Convex(tuple(corners), tuple(_sides(corners)))


def disc(middle: Point, across: float, corners: int) -> Convex:
    """Return a polygon that a whole circle lies in."""
    radius = across / 2 / cos(pi / corners)
    angles = [2 * pi * number / corners for number in range(corners)]
    return convex([(middle[0] + radius * cos(a), middle[1] + radius * sin(a)) for a in angles])


def _sides(corners: Sequence[Point]) -> Iterable[ConvexSide]:
    """Yield the side from each corner to the next."""
    for (x, y), (u, v) in pairwise((*corners, corners[0])):
        long = hypot(u - x, v - y)
        right, down = (v - y) / long, (x - u) / long
        yield right, down, right * x + down * y


def _meeting(one: ConvexSide, other: ConvexSide) -> Point:
    """Return the corner where two sides meet."""
    (a, b, out), (c, d, far) = one, other
    turn = a * d - b * c
    return (out * d - far * b) / turn, (a * far - c * out) / turn


def distance(at: Point, start: Point, end: Point) -> float:
    """Return how far a place is from a straight piece."""
    (x, y), (u, v) = start, end
    square = (u - x) ** 2 + (v - y) ** 2
    part = ((at[0] - x) * (u - x) + (at[1] - y) * (v - y)) / square if square else 0.0
    part = min(1.0, max(0.0, part))
    return hypot(at[0] - x - part * (u - x), at[1] - y - part * (v - y))
