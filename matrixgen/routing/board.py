"""The controller's board as it lies behind the plate, seen from the front, in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from matrixgen.model import Line, Plate
from matrixgen.model.geometry import Point, turned_about
from matrixgen.model.switch import UNIT_MM, cut_out_mm
from matrixgen.record import Record
from matrixgen.routing.convex import convex, overlap
from matrixgen.routing.places import Joint

if TYPE_CHECKING:
    from matrixgen.boards import Edge, Mounted, Profile

OUT_MM = 1.0
"""How far beyond the board's edge a wire bends to its pad, so that it does not lie under the board
(a choice)."""


NO_KEY = ""
"""What stands for a key's name where a wire ends at the controller."""


class Pad(Record):
    """A pad: where it is, and where a wire that comes to it crosses the board's edge.

    Where that `is_over_switch`, the wire comes from above the switches' legs: straight.
    """

    at: Point
    outside: Point
    is_over_switch: bool


class BoardOnPlate(Record, kw_only=True):
    """A board: its corners clockwise, its USB socket's, and the pad of each pin, by the pin's name.

    `is_between_keys` where no switch is before it: wires go round it then, and below it otherwise.
    """

    corners: tuple[Point, ...]
    socket: tuple[Point, ...]
    pads: Mapping[str, Pad]
    is_between_keys: bool


SOCKET_MM = 8.0
"""How wide a USB socket is drawn: micro and C sockets are 7.5 to 9 mm (from memory)."""


def board_on_plate(plate: Plate, profile: Profile) -> BoardOnPlate | None:
    """Return the board of a controller; None where its place or its outline is not known."""
    place, outline = plate.controller, profile.outline
    if place is None or outline is None:
        return None
    middle = place.x * UNIT_MM, place.y * UNIT_MM

    def seen(point: Point) -> Point:
        """Return a point of the board, which shows its parts to whoever is behind the plate."""
        x, y = middle[0] - point[0], middle[1] + point[1]
        return turned_about((x, y), middle, place.turned)

    corners = tuple(map(seen, reversed(outline.corners)))
    half, out = SOCKET_MM / 2, -outline.overhang
    socket = ((half, out), (-half, out), (-half, 0.0), (half, 0.0))
    bodies = [convex(cut_out_mm(key)) for key in plate.keys]

    def pad(edge: Edge, number: int) -> Pad:
        outside = seen(outline.outside(edge, number, OUT_MM))
        is_over = any(body.is_crossed(outside, outside) for body in bodies)
        return Pad(seen(outline.pad(edge, number)), outside, is_over)

    pads = {
        name: pad(edge, number)
        for edge in profile.edges
        for number, name in enumerate(edge.names)
        if profile.pin(name)
    }
    shape = convex(corners)
    return BoardOnPlate(
        corners=corners,
        socket=tuple(map(seen, socket)),
        pads=pads,
        is_between_keys=not any(overlap(shape, body) for body in bodies),
    )


def pad_of(line: Line, mounted: Mounted, board: BoardOnPlate) -> Pad | None:
    """Return the pad that a wire ends on, None where it has none."""
    pin = mounted.pin_of(line)
    return board.pads.get(pin.name) if pin else None


def joint_at(pad: Pad) -> Joint:
    """Return the place at the board's edge as what a route may start from."""
    return Joint(NO_KEY, pad.outside)
