"""Closed ways of straight sides, convex or not. y grows downwards, and clockwise is as it is seen.

Lengths are in any unit; a ring is the corners in their order, the first one after the last.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point

RingSide = tuple[Point, Point]

STRAIGHT = 1e-6
"""How far a corner is from the straight way between its neighbours and still is none."""


def sides_of(ring: Sequence[Point]) -> list[RingSide]:
    """Return the sides, each from a corner to the next."""
    return list(pairwise((*ring, ring[0])))


def area_of(ring: Sequence[Point]) -> float:
    """Return the area within, below 0 where the ring goes anticlockwise: the shoelace formula."""
    return sum(x * v - u * y for (x, y), (u, v) in sides_of(ring)) / 2


def in_order(ring: Sequence[Point]) -> tuple[Point, ...]:
    """Return the same ring clockwise from its leftmost corner on, without corners that are none."""
    around = zip((ring[-1], *ring), ring, (*ring[1:], ring[0]), strict=False)
    corners = [at for before, at, after in around if distance(at, before, after) > STRAIGHT]
    if area_of(corners) < 0:
        corners.reverse()
    first = corners.index(min(corners))
    return (*corners[first:], *corners[:first])


def is_inside(at: Point, ring: Sequence[Point]) -> bool:
    """Whether a place is within: a way to the right crosses the ring an odd number of times."""
    x, y = at
    inside = False
    for (a, b), (c, d) in sides_of(ring):
        if (b > y) != (d > y) and x < a + (y - b) * (c - a) / (d - b):
            inside = not inside
    return inside


def meeting(ring: Sequence[Point], near: float) -> tuple[int, int] | None:
    """Return the numbers of the first two sides that cross, or come so near to each other.

    Sides beside each other meet if one goes back on the other; then both numbers follow each other.
    None where the ring is sound. A side shorter than `near` meets the next one.
    """
    sides = sides_of(ring)
    return min(_meetings(sides, near), default=None)


def _meetings(sides: Sequence[RingSide], near: float) -> Iterator[tuple[int, int]]:
    """Yield every two sides that meet; those that lie left of each other are not looked at."""
    order = sorted(range(len(sides)), key=lambda number: min(at[0] for at in sides[number]))
    open_: list[int] = []
    for number in order:
        left = min(at[0] for at in sides[number]) - near
        open_ = [one for one in open_ if max(at[0] for at in sides[one]) >= left]
        for one in open_:
            first, second = sorted((one, number))
            if _meet(sides, first, second, near):
                yield first, second
        open_.append(number)


def _meet(sides: Sequence[RingSide], first: int, second: int, near: float) -> bool:
    one, other = sides[first], sides[second]
    apart = second - first
    if apart == 1:
        return _folded(one, other, near)
    if apart == len(sides) - 1:
        return _folded(other, one, near)
    return between(one, other) < near


def _folded(one: RingSide, other: RingSide, near: float) -> bool:
    """Whether a side that begins where another ends goes back on it."""
    return distance(other[1], *one) < near or distance(one[0], *other) < near


def between(one: RingSide, other: RingSide) -> float:
    """Return how far two straight pieces are from each other; 0 where they cross."""
    if _parts(one, other) and _parts(other, one):
        return 0.0
    ends = [distance(at, *other) for at in one] + [distance(at, *one) for at in other]
    return min(ends)


def _parts(one: RingSide, other: RingSide) -> bool:
    """Whether the ends of a piece lie on both sides of another one's line."""
    first, second = (turn(*other, at) for at in one)
    return first * second < 0


def turn(one: Point, other: Point, at: Point) -> float:
    """Return twice the area of three places, positive where they turn clockwise."""
    return (other[0] - one[0]) * (at[1] - one[1]) - (other[1] - one[1]) * (at[0] - one[0])
