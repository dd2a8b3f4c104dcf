"""Lights and knobs as both pictures draw them, each with its name where nothing is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.emit.sheet.font import ASCENT, DESCENT, width_of
from matrixgen.model import ComponentPlace, Plate
from matrixgen.model.geometry import Point, corners_of
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

NAME_MM = 2.2
"""The size of a name's letters, as in `picture.css`."""

GAP_MM = 0.2
"""How far a name is from its light or knob."""

Room = tuple[float, float, float, float]
"""An upright rectangle: left, top, right and bottom."""


class NamePlace(Record):
    """Where a name's base line starts, ends or has its middle, as its anchor says; and its room."""

    at: Point
    anchor: str
    room: Room


class ComponentShape(Record):
    """A light or a knob in a picture: its name, its middle, its hole's radius, and its own."""

    called: str
    at: Point
    hole: float
    room: float
    name: NamePlace


def component_shapes(plate: Plate, *, from_behind: bool = False) -> tuple[ComponentShape, ...]:
    """Return a plate's lights and knobs as they are drawn.

    A name is below its part if there is room, else above, right or left of it; below, if it is
    nowhere. What is in the way are keys, other parts and the names before it.
    """
    side = -1 if from_behind else 1
    keys = [_room_of([(side * x, y) for x, y in corners_of(key)]) for key in plate.keys]
    parts = [(one, (side * one.x * UNIT_MM, one.y * UNIT_MM)) for one in plate.components]
    circles = [_round(at, one.size.room_mm / 2) for one, at in parts]
    names: list[Room] = []
    made = []
    for place, (one, at) in enumerate(parts):
        others = [*circles[:place], *circles[place + 1 :], *names]
        name = _placed(one, at, [*others, *(key for key in keys if not _meet(key, _round(at, 0)))])
        names.append(name.room)
        half = one.size.hole_mm / 2, one.size.room_mm / 2
        made.append(ComponentShape(one.called, at, *half, name))
    return tuple(made)


def _placed(one: ComponentPlace, at: Point, others: Sequence[Room]) -> NamePlace:
    places = list(_places(one, at))
    return next(
        (name for name in places if not any(_meet(name.room, o) for o in others)), places[0]
    )


def _places(one: ComponentPlace, at: Point) -> Iterator[NamePlace]:
    """Yield the places of a name: below, above, right and left."""
    x, y = at
    wide, away = width_of(one.name.text, NAME_MM), one.size.room_mm / 2 + GAP_MM
    up, down = ASCENT * NAME_MM, DESCENT * NAME_MM
    middle = y + (up - down) / 2
    for where, anchor in (
        ((x, y + away + up), "middle"),
        ((x, y - away - down), "middle"),
        ((x + away, middle), "start"),
        ((x - away, middle), "end"),
    ):
        left = where[0] - {"middle": wide / 2, "start": 0.0, "end": wide}[anchor]
        yield NamePlace(where, anchor, (left, where[1] - up, left + wide, where[1] + down))


def _room_of(points: Sequence[Point]) -> Room:
    """Return the upright rectangle round points that are in key units, in millimetres."""
    xs, ys = zip(*points, strict=True)
    return (min(xs) * UNIT_MM, min(ys) * UNIT_MM, max(xs) * UNIT_MM, max(ys) * UNIT_MM)


def _round(at: Point, radius: float) -> Room:
    return (at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius)


def _meet(one: Room, other: Room) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
