"""The plate's outline: round all keys with a margin. Millimetres; y grows downwards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import atan, atan2, ceil, degrees, dist, pi, tan

from matrixgen.model import Plate
from matrixgen.model.convex import convex
from matrixgen.model.geometry import Point, corners_of, turned_about
from matrixgen.model.plate import MARGIN_MM, RADIUS_MM
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

ARC_DEGREES = 3.0
"""How many degrees of an arc a straight side stands for, where arcs cannot be said: on a radius of
2 mm it is 0.0007 mm off."""


class PathCorner(Record):
    """A place on an outline, and how the way on from there bulges.

    `bulge` is the tangent of a quarter of the angle of the arc to the next place, and 0 for a
    straight side: positive arcs turn clockwise as y grows downwards.
    """

    at: Point
    bulge: float


OutlinePath = tuple[PathCorner, ...]


def outline_of(plate: Plate, beyond: float = 0.0) -> OutlinePath:
    """Return a plate's outline, clockwise, moved so far outwards.

    It is a rectangle where no key is turned, and otherwise goes round all as a rubber band would.
    """
    margin, radius = margin_and_radius(plate)
    extremes = list(_extremes(plate))
    if not any(key.turned % 90 for key in plate.keys):
        extremes = _box(extremes)
    corners = convex(_hull(extremes)).grown(margin + beyond).corners
    return rounded(corners, radius + beyond if radius else 0.0)


def margin_and_radius(plate: Plate) -> tuple[float, float]:
    """Return how far outside of all keys a plate ends, and how round its corners are."""
    said = plate.outline
    return (said.margin, said.radius) if said else (MARGIN_MM, RADIUS_MM)


def _extremes(plate: Plate) -> Iterable[Point]:
    """Yield the corners of all keys' fields, and of squares round the heads of screws."""
    for key in plate.keys:
        yield from ((x * UNIT_MM, y * UNIT_MM) for x, y in corners_of(key))
    for hole in plate.holes:
        half = hole.screw.head_mm / 2
        x, y = hole.x * UNIT_MM, hole.y * UNIT_MM
        yield from ((x + right, y + down) for right in (-half, half) for down in (-half, half))


def _box(points: Sequence[Point]) -> list[Point]:
    """Return the corners of the upright rectangle round some points."""
    xs, ys = zip(*points, strict=True)
    return [(x, y) for x in (min(xs), max(xs)) for y in (min(ys), max(ys))]


def _hull(points: Iterable[Point]) -> list[Point]:
    """Return the corners of the convex hull, clockwise: Andrew's monotone chain (1979)."""
    ordered = sorted({(round(x, 6), round(y, 6)) for x, y in points})
    if len(ordered) < 3:
        return ordered
    upper, lower = _chain(ordered), _chain(ordered[::-1])
    return [*upper[:-1], *lower[:-1]]


def _chain(points: Sequence[Point]) -> list[Point]:
    """Return one side of the hull: what turns back, or not at all, is left out."""
    found: list[Point] = []
    for point in points:
        while len(found) > 1 and _turn(found[-2], found[-1], point) <= 1e-6:
            found.pop()
        found.append(point)
    return found


def _turn(one: Point, other: Point, next_: Point) -> float:
    """Return twice the area of three points, positive where they turn clockwise."""
    return (other[0] - one[0]) * (next_[1] - one[1]) - (other[1] - one[1]) * (next_[0] - one[0])


def rounded(corners: Sequence[Point], radius: float) -> OutlinePath:
    """Return a path whose corners are arcs of a radius, or of less where a side is too short."""
    found = []
    around = zip([corners[-1], *corners[:-1]], corners, [*corners[1:], corners[0]], strict=True)
    for before, at, after in around:
        turned = _angle(before, at, after)
        most = min(dist(before, at), dist(at, after)) / 2
        back = min(abs(radius * tan(turned / 2)), most)
        if back < 1e-6:
            found.append(PathCorner(at, 0.0))
            continue
        found.append(PathCorner(_towards(at, before, back), tan(turned / 4)))
        found.append(PathCorner(_towards(at, after, back), 0.0))
    pairs = pairwise([*found, found[0]])  # where two arcs meet, no side is left between them
    return tuple(one for one, other in pairs if one.bulge or dist(one.at, other.at) > 1e-6)


def flat(outline: OutlinePath) -> list[Point]:
    """Return an outline's corners, and on each arc places a few degrees from each other."""
    found = []
    for corner, following in pairwise([*outline, outline[0]]):
        found += _arc(corner.at, following.at, corner.bulge) if corner.bulge else [corner.at]
    return found


def _arc(start: Point, end: Point, bulge: float) -> list[Point]:
    """Return places on an arc from its start on, without its end."""
    angle = 4 * atan(bulge)
    steps = max(1, ceil(abs(degrees(angle)) / ARC_DEGREES))
    middle, half = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), dist(start, end) / 2
    away = half / tan(angle / 2)
    long = 2 * half
    centre = (
        middle[0] - (end[1] - start[1]) / long * away,
        middle[1] + (end[0] - start[0]) / long * away,
    )
    part = angle / steps
    return [turned_about(start, centre, degrees(part * step)) for step in range(steps)]


def _angle(before: Point, at: Point, after: Point) -> float:
    """Return by how much a path turns at a place, clockwise as y grows downwards."""
    into = atan2(at[1] - before[1], at[0] - before[0])
    out = atan2(after[1] - at[1], after[0] - at[0])
    return (out - into + pi) % (2 * pi) - pi


def _towards(start: Point, end: Point, far: float) -> Point:
    part = far / dist(start, end)
    return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part
