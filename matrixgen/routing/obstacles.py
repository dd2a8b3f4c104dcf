"""What no wire may cross: switches that it does not visit, posts, screw holes, areas kept clear."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi
from typing import Any

import numpy
import shapely
from shapely import Polygon, STRtree, box

from matrixgen.model import Plate
from matrixgen.model.geometry import Point
from matrixgen.model.plate import HOLE_MM
from matrixgen.model.switch import POST_MM, UNIT_MM
from matrixgen.routing.places import Placed

Array = numpy.ndarray[Any, numpy.dtype[Any]]
"""Of numbers, of truth or of shapes."""

TOUCH_MM = 0.01
"""A way may touch what it goes round."""


class Obstacles:
    """All that is in the way on a plate's back, each grown by a clearance in millimetres.

    The bodies of switches are the first of them, numbered in plate order.
    """

    def __init__(self, plate: Plate, switches: Sequence[Placed], clearance: float) -> None:
        bodies = [Polygon(one.body) for one in switches]
        posts = [disc(one.middle, POST_MM, 2) for one in switches]
        self._shapes = shapely.buffer([*bodies, *kept_clear(plate)], clearance, join_style="mitre")
        self._posts = shapely.buffer(posts, clearance, join_style="mitre")
        self._crossed_posts = _within(self._posts)
        self._tree = STRtree(_within(self._shapes))

    def are_free(self, lines: Array | list[shapely.LineString], own: Sequence[int]) -> Array:
        """Return for each line whether it crosses nothing but the bodies that are its own."""
        line, obstacle = self._tree.query(lines, predicate="intersects")
        free = numpy.ones(len(lines), dtype=bool)
        free[line[~numpy.isin(obstacle, own)]] = False
        for post in self._crossed_posts[list(own)]:
            free &= ~shapely.intersects(lines, post)
        return free

    def corners(self) -> list[Point]:
        """Return the corners that a way may go over: of all but posts."""
        return [corner for shape in self._shapes for corner in _corners(shape)]

    def post_corners(self, switch: int) -> list[Point]:
        """Return the corners of a switch's post."""
        return _corners(self._posts[switch])


def _within(shapes: Array) -> Array:
    """Return the shapes as they are crossed: touching them is allowed."""
    return numpy.asarray(shapely.buffer(shapes, -TOUCH_MM, join_style="mitre"))


def _corners(shape: Polygon) -> list[Point]:
    return [(float(x), float(y)) for x, y in shape.exterior.coords[:-1]]


def kept_clear(plate: Plate) -> list[Polygon]:
    """Return what the plate's file wants kept clear, in millimetres: first holes, then areas."""
    holes = [disc((one.x * UNIT_MM, one.y * UNIT_MM), HOLE_MM, 4) for one in plate.holes]
    areas = [
        box(
            one.x * UNIT_MM,
            one.y * UNIT_MM,
            (one.x + one.width) * UNIT_MM,
            (one.y + one.height) * UNIT_MM,
        )
        for one in plate.keep_clear
    ]
    return holes + areas


def disc(middle: Point, across: float, segments: int) -> Polygon:
    """Return a polygon that a whole circle lies in, of four times so many corners."""
    radius = across / 2 / cos(pi / 4 / segments)
    return shapely.Point(middle).buffer(radius, quad_segs=segments)
