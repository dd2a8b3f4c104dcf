"""Where a switch really lies once its cluster is turned. Key units; y grows downwards."""

from __future__ import annotations

from math import cos, radians, sin

from matrixgen.model.plate import Key

Point = tuple[float, float]


def turned_about(point: Point, pivot: Point, degrees: float) -> Point:
    """Return a point turned clockwise about a pivot: y grows downwards."""
    if not degrees:
        return point
    cosine, sine = cos(radians(degrees)), sin(radians(degrees))
    x, y = point[0] - pivot[0], point[1] - pivot[1]
    return pivot[0] + x * cosine - y * sine, pivot[1] + x * sine + y * cosine


def corners_of(key: Key) -> list[Point]:
    """Return a key's corners on the plate, from its top left one on, clockwise."""
    right, bottom = key.x + key.width, key.y + key.height
    upright = [(key.x, key.y), (right, key.y), (right, bottom), (key.x, bottom)]
    return [turned_about(corner, (key.pivot_x, key.pivot_y), key.turned) for corner in upright]


def centre_of(key: Key) -> Point:
    """Return the middle of a key on the plate."""
    middle = (key.x + key.width / 2, key.y + key.height / 2)
    return turned_about(middle, (key.pivot_x, key.pivot_y), key.turned)
