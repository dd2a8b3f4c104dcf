"""A switch as it sits in the plate, in millimetres, seen from the front; y grows downwards.

The legs and the post are those of the common switch with a cross-shaped stem: common practice, no
source. Its cut-out is as the plate has it.
"""

from __future__ import annotations

from matrixgen.model.component import ComponentPlace
from matrixgen.model.geometry import Point, centre_of, rectangle, turned_about
from matrixgen.model.plate import Area, ControllerPlace, CutOutSize, Hole, Key

UNIT_MM = 19.05
"""One key unit: 0.75 inch. Common practice, no source."""

RIM_MM = 15.6
"""Width and height of its housing, which stands on the plate with a rim (a switch maker's page)."""

POST_MM = 4.0
"""How thick the post between a switch's legs is."""

NEAR_LEG: Point = (-3.81, -2.54)
FAR_LEG: Point = (2.54, -5.08)
"""Where the two legs come out, seen from the middle of the switch: near its middle, and farther."""

KNOB_BODY_MM: CutOutSize = (12.0, 11.6)
KNOB_LEGS: tuple[Point, Point] = ((7.0, -2.5), (7.0, 2.5))
"""The body of a knob that can be pressed, and its switch's two legs, seen from its shaft (KiCad's
footprint of an encoder of 11 mm with a switch)."""


def corners_mm(cut_out: CutOutSize) -> tuple[Point, ...]:
    """Return the corners of a cut-out from its middle, clockwise from its top left one."""
    right, down = cut_out[0] / 2, cut_out[1] / 2
    return rectangle(-right, -down, right, down)


def centre_mm(key: Key) -> Point:
    """Return the middle of a key on the plate."""
    x, y = centre_of(key)
    return x * UNIT_MM, y * UNIT_MM


def middle_mm(one: Hole | ComponentPlace | ControllerPlace) -> Point:
    """Return the place of a hole, a component or the controller on the plate."""
    return one.x * UNIT_MM, one.y * UNIT_MM


def area_mm(area: Area) -> tuple[Point, ...]:
    """Return the corners of an area on the plate, clockwise from its top left one."""
    right, bottom = area.x + area.width, area.y + area.height
    return rectangle(*(one * UNIT_MM for one in (area.x, area.y, right, bottom)))


def on_plate(key: Key, place: Point) -> Point:
    """Return where a place of a switch, seen from its middle, lies on the plate."""
    x, y = turned_about(place, (0.0, 0.0), key.turned)
    middle = centre_mm(key)
    return middle[0] + x, middle[1] + y


def cut_out_mm(key: Key, cut_out: CutOutSize) -> tuple[Point, ...]:
    """Return the corners of a switch's cut-out on the plate, clockwise from its top left one."""
    return tuple(on_plate(key, corner) for corner in corners_mm(cut_out))
