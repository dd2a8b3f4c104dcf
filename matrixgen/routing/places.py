"""Where each switch's legs and its diode lie on the plate, seen from the front."""

from __future__ import annotations

from math import dist

from matrixgen.model import Axis, Contact, Diode, Key, Keyboard, matrix_of, other_axis
from matrixgen.model.geometry import Point
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.plate import CutOutSize
from matrixgen.model.switch import (
    FAR_LEG,
    KNOB_BODY_MM,
    KNOB_LEGS,
    NEAR_LEG,
    centre_mm,
    cut_out_mm,
    on_plate,
)
from matrixgen.record import Record

LEAD_BEFORE_BODY_MM = 4.0
"""Lead between a joint and a glass diode's body, so that the iron keeps its distance.

The 1N4148's power rating is stated with 4 mm of lead (Vishay 81857).
"""

BODY_MM = 3.4
"""A DO-35 body, at most (Vishay 81857, package drawing)."""

DIODE_END: Point = (5.4, 5.96)
"""Where a diode ends that starts at the far leg: past the post, 11.4 mm of lead, body and lead."""


class Legs(Record):
    """Places of a switch from its middle: both legs, and where a diode from the far one ends."""

    near: Point
    far: Point
    diode_end: Point


KEY_LEGS = Legs(NEAR_LEG, FAR_LEG, DIODE_END)
KNOB_KEY_LEGS = Legs(*KNOB_LEGS, (-2.47, 8.8))
"""A knob's diode goes over a corner of its body: 11.4 mm, as that of a switch."""

Route = tuple[Point, ...]
"""Where a wire goes from one joint to another: both, and the places between where it bends."""


class PlacedDiode(Record, kw_only=True):
    """A diode between a switch's far leg and its wire.

    `body` has the two ends of the glass, the leg's end first; `band` is the end of it that the band
    is at.
    """

    leg: Point
    end: Point
    body: tuple[Point, Point]
    band: Point


class Placed(Record, kw_only=True):
    """A switch on the plate's back.

    `near` and `far` are its legs. The wire of the axis that has the diodes is joined at the end of
    the diode or, without one, at the far leg; the other axis's wire at the near leg.
    """

    key: Key
    middle: Point
    body: tuple[Point, ...]
    near: Point
    far: Point
    diode: PlacedDiode | None


class Joint(Record):
    """A place where a wire is soldered: to which key, or none for the controller, and where."""

    key: str
    at: Point


class Bundle(Record):
    """Wires that lie on each other: on which straight stretches, and the numbers of the wires."""

    stretches: tuple[tuple[Point, Point], ...]
    wires: tuple[int, ...]

    @property
    def length_mm(self) -> float:
        """How long all of its stretches are."""
        return sum(dist(*one) for one in self.stretches)

    @property
    def middle(self) -> Point:
        """The middle of its longest stretch."""
        (x, y), (u, v) = max(self.stretches, key=lambda one: dist(*one))
        return (x + u) / 2, (y + v) / 2


def placed(keyboard: Keyboard, diode_axis: Axis) -> tuple[Placed, ...]:
    """Return every switch in plate order, with its diode on the side of the wires of an axis."""
    contacts = {one.key: one for one in matrix_of(keyboard).contacts}
    of_knobs = knob_keys(keyboard.plate)
    usual = KEY_LEGS, keyboard.plate.cut_out
    return tuple(
        _placed(
            key,
            keyboard,
            contacts.get(key.name.text),
            diode_axis,
            *((KNOB_KEY_LEGS, KNOB_BODY_MM) if key.name.text in of_knobs else usual),
        )
        for key in keyboard.keys
    )


def _placed(
    key: Key,
    keyboard: Keyboard,
    contact: Contact | None,
    axis: Axis,
    legs: Legs,
    body: CutOutSize,
) -> Placed:
    diode = None
    if contact is not None and contact.diode != "none" and keyboard.wiring.diodes is not None:
        diode = _diode(key, keyboard, contact.diode, axis, legs)
    return Placed(
        key=key,
        middle=centre_mm(key),
        body=cut_out_mm(key, body),
        near=on_plate(key, legs.near),
        far=on_plate(key, legs.far),
        diode=diode,
    )


def _diode(key: Key, keyboard: Keyboard, points: Diode, axis: Axis, legs: Legs) -> PlacedDiode:
    wiring = keyboard.wiring
    band_toward = wiring.drive if points == "toward" else other_axis(wiring.drive)
    body = _along(legs, LEAD_BEFORE_BODY_MM), _along(legs, LEAD_BEFORE_BODY_MM + BODY_MM)
    glass = on_plate(key, body[0]), on_plate(key, body[1])
    return PlacedDiode(
        leg=on_plate(key, legs.far),
        end=on_plate(key, legs.diode_end),
        body=glass,
        band=glass[1] if band_toward == axis else glass[0],
    )


def _along(legs: Legs, millimetres: float) -> Point:
    """Return the place on a diode so far from the far leg."""
    x, y = legs.diode_end[0] - legs.far[0], legs.diode_end[1] - legs.far[1]
    part = millimetres / (2 * LEAD_BEFORE_BODY_MM + BODY_MM)
    return legs.far[0] + x * part, legs.far[1] + y * part


def joint_of(switch: Placed, axis: Axis, diode_axis: Axis) -> Point:
    """Return where a wire of an axis is joined to a switch."""
    if axis != diode_axis:
        return switch.near
    return switch.diode.end if switch.diode else switch.far
