"""Where a switch really lies once its cluster is turned. Key units; y grows downwards."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin

from matrixgen.model.plate import Key

Point = tuple[float, float]

Bounds = tuple[float, float, float, float]
"""The left, top, right and bottom of an upright rectangle."""


def bounds_of(points: Iterable[Point]) -> Bounds:
    """Return the upright rectangle round some points, of which there is one at least."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    """Return the corners of an upright rectangle, clockwise from its top left one."""
    return (left, top), (right, top), (right, bottom), (left, bottom)


def turned_about(point: Point, pivot: Point, degrees: float) -> Point:
    """Return a point turned clockwise about a pivot: y grows downwards."""
    if not degrees:
        return point
    cosine, sine = cos(radians(degrees)), sin(radians(degrees))
    x, y = point[0] - pivot[0], point[1] - pivot[1]
    return pivot[0] + x * cosine - y * sine, pivot[1] + x * sine + y * cosine


def corners_of(key: Key) -> list[Point]:
    """Return a key's corners on the plate, from its top left one on, clockwise."""
    upright = rectangle(key.x, key.y, key.x + key.width, key.y + key.height)
    return [turned_about(corner, (key.pivot_x, key.pivot_y), key.turned) for corner in upright]


def centre_of(key: Key) -> Point:
    """Return the middle of a key on the plate."""
    middle = (key.x + key.width / 2, key.y + key.height / 2)
    return turned_about(middle, (key.pivot_x, key.pivot_y), key.turned)
