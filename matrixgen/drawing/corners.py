"""An outline as corners and one radius: what a closed line of many short pieces may have been.

Lengths are in millimetres. Arcs come as straight pieces, so that several answers are possible;
whoever asks holds them to the line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, dist, hypot, pi, tan

from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point
from matrixgen.record import Record

MOST_POINTS = 2000
"""Of an outline that is looked at: an arc of a quarter of a circle takes 90."""

SAME_MM, STRAIGHT_MM = 0.05, 0.0005
"""Points that are nearer are one; one that is so near to the way between others is no corner."""

CURVE_MM = 0.008
"""How far a curve may be from the straight pieces that it is written as."""

LEAST_SIDES_MM = (0.3, 0.6, 1.2, 2.5, 5.0, 10.0, 20.0)
"""From such a length on, a piece may be a side, and shorter ones parts of an arc."""


class DrawnCorners(Record):
    """Corners as they are before they are rounded, and how round they are."""

    corners: tuple[Point, ...]
    radius: float


def corners_in(ring: Sequence[Point]) -> list[DrawnCorners]:
    """Return what a closed line may be, that with the fewest corners first."""
    points = _without_straight(ring)
    if not 3 <= len(points) <= MOST_POINTS:
        return []
    sides = list(pairwise((*points, points[0])))
    found = [DrawnCorners(tuple(_thinned(points, CURVE_MM)), 0.0), *_rounded_ones(sides)]
    return sorted(found, key=lambda one: len(one.corners))


def _without_straight(ring: Sequence[Point]) -> list[Point]:
    """Return the points at which a line turns; one that is drawn twice counts once."""
    points: list[Point] = []
    for at in ring:
        if not points or dist(at, points[-1]) > STRAIGHT_MM:
            points.append(at)
    if len(points) > 1 and dist(points[0], points[-1]) <= SAME_MM:
        points.pop()
    first = points.index(min(points))  # a corner, or on an arc
    return _thinned([*points[first:], *points[:first]], STRAIGHT_MM)


def _thinned(points: Sequence[Point], most: float) -> list[Point]:
    """Return some of the points, so that the straight ways between them pass near to all."""
    around = [*points, points[0]]
    kept, start = [points[0]], 0
    for end in range(2, len(around)):
        way = around[start], around[end]
        if any(distance(at, *way) > most for at in around[start + 1 : end]):
            start = end - 1
            kept.append(around[start])
    return kept


def _rounded_ones(sides: Sequence[tuple[Point, Point]]) -> Iterator[DrawnCorners]:
    """Yield the corners where long sides would meet that arcs lie between."""
    tried: set[int] = set()
    for least in LEAST_SIDES_MM:
        long = [side for side in sides if dist(*side) >= least]
        if 3 <= len(long) < len(sides) and len(long) not in tried:
            tried.add(len(long))
            meetings = [_meeting(*pair) for pair in pairwise((*long, long[0]))]
            found = [one for one in meetings if one is not None]
            if len(found) == len(meetings):
                radius = max(far for _, far in found)
                yield DrawnCorners(tuple(at for at, _ in found), radius)


def _meeting(one: tuple[Point, Point], other: tuple[Point, Point]) -> tuple[Point, float] | None:
    """Return where a side that goes on meets the next one, and the radius of an arc between.

    None where they do not meet, or not there.
    """
    (start, end), (begin, last) = one, other
    if end == begin:
        return end, 0.0
    (a, b), (c, d) = ((v[0] - u[0], v[1] - u[1]) for u, v in (one, other))
    across = a * d - b * c
    if abs(across) < 1e-9:
        return None
    part = ((begin[0] - start[0]) * d - (begin[1] - start[1]) * c) / across
    at = start[0] + a * part, start[1] + b * part
    turned = abs((atan2(d, c) - atan2(b, a) + pi) % (2 * pi) - pi)
    is_ahead = part >= 1 and (at[0] - last[0]) * c + (at[1] - last[1]) * d <= -(hypot(c, d) ** 2)
    return (at, dist(at, end) / tan(turned / 2)) if is_ahead else None
