"""The plate without its keys, as both pictures of it are drawn over it."""

from __future__ import annotations

from matrixgen.emit.sheet.component_shapes import ComponentShape, component_shapes
from matrixgen.emit.sheet.frame import edge_of, mirrored, polyline
from matrixgen.model import Plate
from matrixgen.model.geometry import Point
from matrixgen.model.plate import Area, Hole
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record


class HoleShape(Record):
    """A screw's hole in a picture: its middle, how far its head reaches, and its thread."""

    at: Point
    head: float
    thread: float


class BarePlate(Record, kw_only=True):
    """An outline with corners, or an empty text, and what is on the plate besides switches.

    `areas` are to be kept clear: left, top, width and height of each.
    """

    edge: str
    areas: tuple[tuple[float, float, float, float], ...]
    holes: tuple[HoleShape, ...]
    components: tuple[ComponentShape, ...]


def bare_plate(plate: Plate, *, from_behind: bool = False) -> BarePlate:
    """Return a plate as it is drawn."""
    edge = edge_of(plate)
    return BarePlate(
        edge=polyline(mirrored(edge) if from_behind else edge),
        areas=tuple(_area(one, from_behind) for one in plate.keep_clear),
        holes=tuple(_hole(one, from_behind) for one in plate.holes),
        components=component_shapes(plate, from_behind=from_behind),
    )


def _area(one: Area, from_behind: bool) -> tuple[float, float, float, float]:
    left = -(one.x + one.width) if from_behind else one.x
    return left * UNIT_MM, one.y * UNIT_MM, one.width * UNIT_MM, one.height * UNIT_MM


def _hole(one: Hole, from_behind: bool) -> HoleShape:
    x = -one.x if from_behind else one.x
    return HoleShape((x * UNIT_MM, one.y * UNIT_MM), one.screw.head_mm / 2, one.nominal / 2)
