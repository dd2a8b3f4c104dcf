"""What a closed outline is: a square, a round hole, or just an outline of some size."""

from __future__ import annotations

from cmath import phase, rect
from itertools import pairwise
from math import cos, degrees, hypot, pi, radians, sin

from matrixgen.drawing.traces import Trace
from matrixgen.model.geometry import Bounds, Point, bounds_of
from matrixgen.record import Record

FULLNESS = 0.97
"""How much of its rectangle a square fills: corners rounded by 2.5 mm pass, an octagon does not."""

ROUNDNESS_MM = 0.05
"""How much the radius of a hole may vary: a drawing may have circles of straight pieces."""

LEAST_TURN = -44.9
"""A square that is turned by 45 degrees, or by 45 the other way, is one and the same."""


class ClosedShape(Record, kw_only=True):
    """A closed outline as its rectangle: middle, sides, and degrees clockwise, in millimetres.

    It is turned so that its sides follow the outline's own, by at most 45 degrees either way.
    `fullness` is how much of the rectangle it fills, and `radius` that of a circle, 0 if it is
    none. `box` is the left, top, right and bottom of its upright bounding box.
    """

    x: float
    y: float
    width: float
    height: float
    turned: float
    fullness: float
    radius: float
    box: Bounds
    layer: str


def measured(outline: Trace) -> ClosedShape:
    """Return the measures of a closed outline."""
    turned = _turn_of(outline.points)
    cosine, sine = cos(radians(turned)), sin(radians(turned))
    along = [x * cosine + y * sine for x, y in outline.points]
    down = [y * cosine - x * sine for x, y in outline.points]
    width, height = max(along) - min(along), max(down) - min(down)
    middle_x, middle_y = (max(along) + min(along)) / 2, (max(down) + min(down)) / 2
    x, y = middle_x * cosine - middle_y * sine, middle_x * sine + middle_y * cosine
    area = width * height
    return ClosedShape(
        x=x,
        y=y,
        width=width,
        height=height,
        turned=turned,
        fullness=_area_of(outline.points) / area if area else 0.0,
        radius=_radius_of(outline.points),
        box=bounds_of(outline.points),
        layer=outline.layer,
    )


def _turn_of(points: tuple[Point, ...]) -> float:
    """Return the turn of most of an outline's length, in degrees, -44.9 to 45.1.

    Each piece counts by its length, and with four times its angle: then the four sides of a
    square say the same, and the roundings of its corners nothing.
    """
    total = 0j
    for (x, y), (next_x, next_y) in pairwise(points):
        piece = complex(next_x - x, next_y - y)
        total += rect(abs(piece), 4 * phase(piece))
    turned = degrees(phase(total)) / 4
    return turned + 90 if turned < LEAST_TURN else turned


def _area_of(points: tuple[Point, ...]) -> float:
    """Return the area inside: the shoelace formula, about the first point."""
    left, top = points[0]
    moved = [(x - left, y - top) for x, y in points]
    return abs(sum(x * next_y - next_x * y for (x, y), (next_x, next_y) in pairwise(moved))) / 2


def _radius_of(points: tuple[Point, ...]) -> float:
    """Return the radius of a circle, or 0 where the outline is none."""
    left, top, right, bottom = bounds_of(points)
    x, y = (left + right) / 2, (top + bottom) / 2
    radii = [hypot(one - x, other - y) for one, other in points]
    radius = max(radii)
    is_circle = radius - min(radii) <= ROUNDNESS_MM
    return radius if is_circle and _area_of(points) >= 0.93 * pi * radius**2 else 0.0
