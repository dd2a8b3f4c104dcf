"""How much of the plate is left between two things that go through it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist, hypot

from matrixgen.model.convex import convex, overlap
from matrixgen.model.geometry import Point, turned_about
from matrixgen.plate.openings import Bar, Circle, Opening
from matrixgen.record import Record

ROUNDING_MM = 2e-5
"""What is taken for rounding."""


class Web(Record):
    """Two openings beside each other, and how many millimetres are between: 0 where they meet."""

    openings: tuple[Opening, Opening]
    width: float


def thin_webs(openings: Sequence[Opening], least: float) -> Iterator[Web]:
    """Yield each two openings with less between them, by their places from left to right."""
    ordered = sorted(openings, key=lambda one: (one.middle[0] - reach_of(one), one.middle[1]))
    open_: list[Opening] = []
    for one in ordered:
        left = one.middle[0] - reach_of(one)
        open_ = [other for other in open_ if other.middle[0] + reach_of(other) + least > left]
        for other in open_:
            is_near = may_reach(one, other.middle, reach_of(other) + least)
            if is_near and (web := web_mm(one, other)) < least:
                yield Web((other, one), web)
        open_.append(one)


def web_mm(one: Opening, other: Opening) -> float:
    """Return how much is left between two openings."""
    if isinstance(one, Circle):
        if isinstance(other, Circle):
            return max(0.0, dist(one.middle, other.middle) - (one.diameter + other.diameter) / 2)
        return max(0.0, from_opening(one.middle, other) - one.diameter / 2)
    if isinstance(other, Circle):
        return web_mm(other, one)
    if not (one.turned % 90 or other.turned % 90):
        return _between_upright(one, other)
    if overlap(convex(one.corners), convex(other.corners)):
        return 0.0
    corners = [(at, other) for at in one.corners] + [(at, one) for at in other.corners]
    return min(from_opening(at, bar) for at, bar in corners)


def _between_upright(one: Bar, other: Bar) -> float:
    """Return the same of two rectangles that stand or lie."""
    (x, y), (u, v) = one.middle, other.middle
    (wide, high), (width, height) = _sizes(one), _sizes(other)
    right, down = abs(u - x) - (wide + width) / 2, abs(v - y) - (high + height) / 2
    return hypot(max(0.0, right), max(0.0, down))


def _sizes(bar: Bar) -> tuple[float, float]:
    return (bar.height, bar.width) if bar.turned % 180 else (bar.width, bar.height)


def is_nearer(one: Opening, at: Point, far: float) -> bool:
    """Whether an opening is nearer to a place than so far, or round it; what touches is not."""
    return may_reach(one, at, far) and from_opening(at, one) < far - ROUNDING_MM


def from_opening(at: Point, one: Opening) -> float:
    """Return how far a place is from an opening; 0 inside of it."""
    if isinstance(one, Circle):
        return max(0.0, dist(at, one.middle) - one.diameter / 2)
    x, y = turned_about(at, one.middle, -one.turned)
    right = abs(x - one.middle[0]) - one.width / 2
    down = abs(y - one.middle[1]) - one.height / 2
    return hypot(max(0.0, right), max(0.0, down))


def reach_of(one: Opening) -> float:
    """Return how far an opening reaches from its middle."""
    return one.diameter / 2 if isinstance(one, Circle) else hypot(one.width, one.height) / 2


def may_reach(one: Opening, at: Point, far: float) -> bool:
    """Whether an opening can be so near to a place: quick, and false for most."""
    return dist(one.middle, at) < reach_of(one) + far
