"""The plate's outline: its own corners, or round all keys. Millimetres; y grows downwards."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import acos, atan, atan2, ceil, degrees, dist, inf, pi, radians, sin, tan

from matrixgen.model import Plate
from matrixgen.model.convex import convex
from matrixgen.model.geometry import Point, bounds_of, corners_of, rectangle, turned_about
from matrixgen.model.plate import MARGIN_MM, RADIUS_MM, CornerOutline, Outline
from matrixgen.model.rings import in_order, meeting, turn
from matrixgen.model.switch import UNIT_MM, middle_mm
from matrixgen.record import Record

ARC_DEGREES, ARC_MM = 3.0, 0.002
"""How many degrees of an arc a straight side stands for at most, where arcs cannot be said, and how
far it may be off: on a radius of 2 mm it is 0.0007 mm off."""


TOUCHING_MM = 0.001
"""How near two sides of an outline are that touch once they were moved."""


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

    Without corners of its own it is a rectangle where no key is turned, and otherwise goes round
    all as a rubber band would.
    """
    if isinstance(plate.outline, CornerOutline):
        return rounded(_moved_corners(plate.outline, beyond), plate.outline.radius, beyond)
    margin, radius = margin_and_radius(plate)
    extremes = list(_extremes(plate))
    if not any(key.turned % 90 for key in plate.keys):
        extremes = list(rectangle(*bounds_of(extremes)))
    corners = convex(_hull(extremes)).grown(margin + beyond).corners
    return rounded(corners, radius, beyond)


def _moved_corners(outline: CornerOutline, beyond: float) -> tuple[Point, ...]:
    """Return the corners where the sides meet once each was moved outwards, clockwise."""
    ring = in_order([(x * UNIT_MM, y * UNIT_MM) for x, y in outline.corners])
    return convex(ring).grown(beyond).corners  # convex or not, a side beside has another direction


def is_too_fine(plate: Plate, kerf: float) -> bool:
    """Whether a cut of that width has no room within a notch of the plate's outline."""
    if not kerf or not isinstance(plate.outline, CornerOutline):
        return False
    return meeting(_moved_corners(plate.outline, kerf / 2), TOUCHING_MM) is not None


def margin_and_radius(plate: Plate) -> tuple[float, float]:
    """Return how far outside of all keys a plate without corners of its own ends, and how round."""
    said = plate.outline
    return (said.margin, said.radius) if isinstance(said, Outline) else (MARGIN_MM, RADIUS_MM)


def _extremes(plate: Plate) -> Iterable[Point]:
    """Yield the corners of all keys' fields, and of squares round heads of screws, and parts."""
    for key in plate.keys:
        yield from ((x * UNIT_MM, y * UNIT_MM) for x, y in corners_of(key))
    round_ones = [(middle_mm(one), one.screw.head_mm / 2) for one in plate.holes]
    round_ones += [(middle_mm(one), one.size.room_mm / 2) for one in plate.components]
    for (x, y), half in round_ones:
        yield from rectangle(x - half, y - half, x + half, y + half)


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
        while len(found) > 1 and turn(found[-2], found[-1], point) <= 1e-6:
            found.pop()
        found.append(point)
    return found


def rounded(corners: Sequence[Point], radius: float, beyond: float = 0.0) -> OutlinePath:
    """Return a path whose corners are arcs of a radius, or of less where there is no room for it.

    They are those of a path that was moved so far outwards: wider outside, narrower inside.
    """
    found = []
    around = list(
        zip([corners[-1], *corners[:-1]], corners, [*corners[1:], corners[0]], strict=True)
    )
    is_convex = all(turn(*three) > 0 for three in around)
    for before, at, after in around:
        turned = _angle(before, at, after)
        wide = max(0.0, radius + (beyond if turned > 0 else -beyond)) if radius else 0.0
        most = min(dist(before, at), dist(at, after)) / 2
        if wide and not is_convex:
            most = min(most, _room(before, at, after, corners))
        back = min(abs(wide * tan(turned / 2)), most)
        if back < 1e-6:
            found.append(PathCorner(at, 0.0))
            continue
        found.append(PathCorner(_towards(at, before, back), tan(turned / 4)))
        found.append(PathCorner(_towards(at, after, back), 0.0))
    pairs = pairwise([*found, found[0]])  # where two arcs meet, no side is left between them
    return tuple(one for one, other in pairs if one.bulge or dist(one.at, other.at) > 1e-6)


def _room(before: Point, at: Point, after: Point, corners: Sequence[Point]) -> float:
    """Return how far from a corner its arc may begin so that no other corner is cut off by it.

    Seen along both sides, such a corner is nearer in all than the straight way between the ends.
    """
    (a, b), (c, d) = (_towards((0.0, 0.0), (x - at[0], y - at[1]), 1.0) for x, y in (before, after))
    across = a * d - b * c
    others = ((x - at[0], y - at[1]) for x, y in corners if (x, y) not in (before, at, after))
    along = (((x * d - y * c) / across, (y * a - x * b) / across) for x, y in others)
    return min((one + other for one, other in along if one >= 0 and other >= 0), default=inf)


def flat(outline: OutlinePath) -> list[Point]:
    """Return an outline's corners, and on each arc places a few degrees from each other."""
    return [at for corner, following in pairs_of(outline) for at in arc_of(corner, following)]


def pairs_of(outline: OutlinePath) -> Iterator[tuple[PathCorner, PathCorner]]:
    """Yield each place with the next one, and the last with the first."""
    return pairwise([*outline, outline[0]])


def arc_of(corner: PathCorner, following: PathCorner) -> list[Point]:
    """Return the places on the way to the next one, without that one: one if it is straight."""
    return _arc(corner.at, following.at, corner.bulge) if corner.bulge else [corner.at]


def _arc(start: Point, end: Point, bulge: float) -> list[Point]:
    """Return places on an arc from its start on, without its end."""
    angle = 4 * atan(bulge)
    radius = dist(start, end) / 2 / abs(sin(angle / 2))
    step = min(radians(ARC_DEGREES), 2 * acos(max(0.0, 1 - ARC_MM / radius)))
    steps = ceil(abs(angle) / step)
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
