"""Plates to draw: the examples', and drawn ones; and what they are by shapely alone."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from shapely import affinity
from shapely.geometry import MultiPoint, Point, Polygon, box

from matrixgen.model import Key, Keyboard, Plate
from matrixgen.source import read_design

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*/*.keys")))
UNIT = 19.05
HOLES = {2.0: 2.4, 2.5: 2.9, 3.0: 3.4}
"""Diameters for a screw of a size: ISO 273, medium fit."""
COMPONENTS = {"light": 3.2, "knob": 7.2}
"""Diameters for an LED of 3 mm and for an M7 thread (from memory)."""


def keyboard_of(name: str) -> Keyboard:
    return read(str(EXAMPLES / name / f"{name}.keys"))


def read(path: str, text: str | None = None) -> Keyboard:
    design, findings = read_design(path, text)
    assert design, findings
    return design.keyboard


def field(key: Key) -> Polygon:
    """Return a key's field in millimetres, turned as its cluster is."""
    upright = box(key.x, key.y, key.x + key.width, key.y + key.height)
    pivot = (key.pivot_x, key.pivot_y)
    turned = affinity.rotate(upright, key.turned, origin=pivot)
    return affinity.scale(turned, UNIT, UNIT, origin=(0, 0))


def in_field(key: Key, across: float, down: float, width: float, height: float) -> Polygon:
    """Return a rectangle whose middle is so far from its switch's, turned as the key is."""
    middle = field(key).centroid
    x, y = middle.x + across, middle.y + down
    upright = box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    return affinity.rotate(upright, key.turned, origin=middle)


def outline(plate: Plate, margin: float = 6.0, radius: float = 2.0) -> Polygon:
    """Return the hull of fields and screws' heads, grown, with round corners.

    It is their box where no key is turned.
    """
    points = [at for key in plate.keys for at in field(key).exterior.coords]
    for hole in plate.holes:
        head = {2.0: 2.2, 2.5: 2.7, 3.0: 3.0}[hole.nominal]
        points += box(
            *(
                hole.x * UNIT - head,
                hole.y * UNIT - head,
                hole.x * UNIT + head,
                hole.y * UNIT + head,
            )
        ).exterior.coords
    around = MultiPoint(points).convex_hull
    if not any(key.turned % 90 for key in plate.keys):
        around = box(*around.bounds)
    hull = around.buffer(margin, join_style="mitre", mitre_limit=100)
    return hull.buffer(-radius, join_style="mitre", mitre_limit=100).buffer(radius, quad_segs=64)


def is_pressed_by_knob(plate: Plate, key: Key) -> bool:
    """Return whether a knob lies in the middle of a key: its switch is in the knob."""
    knobs = [Point(one.x * UNIT, one.y * UNIT) for one in plate.components if one.kind == "knob"]
    return any(knob.distance(field(key).centroid) < 0.01 for knob in knobs)


def switches(plate: Plate, width: float = 14, height: float = 14) -> list[Polygon]:
    return [
        in_field(key, 0, 0, width, height)
        for key in plate.keys
        if not is_pressed_by_knob(plate, key)
    ]


def holes(plate: Plate) -> list[Polygon]:
    """Return the round holes: those of screws, then those of lights and knobs."""
    sizes = [(one, HOLES[one.nominal]) for one in plate.holes]
    sizes += [(one, COMPONENTS[one.kind]) for one in plate.components]
    return [
        Point(one.x * UNIT, one.y * UNIT).buffer(diameter / 2, quad_segs=64)
        for one, diameter in sizes
    ]


def differ(one: Polygon, other: Polygon) -> float:
    """Return how much of two shapes is not in both, in square millimetres."""
    return float(one.symmetric_difference(other).area)


def differ_at_most(some: Sequence[Polygon], others: Sequence[Polygon]) -> float:
    """Return the most that shapes differ from others, each from the nearest one of them."""
    assert len(some) == len(others)
    return max((min(differ(one, other) for other in others) for one in some), default=0.0)
