"""The controller's board as it lies behind the plate, to scale: outline, USB socket, pads."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees

from matrixgen.boards import Mounted
from matrixgen.emit.sheet.frame import mirrored, place, polyline
from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing.board import BoardOnPlate, Pad

INWARD_MM = 0.9
"""How far from a pad's middle its text begins, toward the middle of the board."""


BELOW_MM = 3.0
"""How far into the board the word at its socket stands."""


class PadShape(Record, kw_only=True):
    """A pad: where it is, whether a wire goes to it, and what is printed beside it."""

    at: Point
    is_used: bool
    text: str
    text_at: Point
    anchor: str
    turn: str


class BoardShape(Record, kw_only=True):
    """A board: its outline and its USB socket's, and its pads."""

    outline: str
    socket: str
    usb_at: Point
    usb_turn: str
    pads: tuple[PadShape, ...]
    is_over_keys: bool


def board_shape(board: BoardOnPlate, mounted: Mounted) -> BoardShape:
    """Return a board as it is seen from behind."""
    used = {use.pin.name for use in mounted.uses}
    pins = {pin.name: pin for pin in mounted.profile.pins}
    corners = mirrored(board.corners)
    usb, turn = _below(mirrored(board.edge))
    return BoardShape(
        outline=polyline(corners),
        socket=polyline(mirrored(board.socket)),
        usb_at=usb,
        usb_turn=f"rotate({turn:g} {place(usb)})" if turn else "",
        pads=tuple(
            _pad(pad, name in used, pins[name].label or name) for name, pad in board.pads.items()
        ),
        is_over_keys=not board.is_between_keys,
    )


def _below(edge: Sequence[Point]) -> tuple[Point, float]:
    """Return where a word stands below an edge, the board on the right of it, and its turn."""
    (x, y), (u, v) = edge
    long = ((u - x) ** 2 + (v - y) ** 2) ** 0.5
    at = (x + u) / 2 - (v - y) / long * BELOW_MM, (y + v) / 2 + (u - x) / long * BELOW_MM
    turn = round(degrees(atan2(v - y, u - x)), 2)
    return at, (turn if -90 <= turn <= 90 else turn + 180) % 360


def _pad(pad: Pad, is_used: bool, text: str) -> PadShape:
    """Return a pad with its text beside it, along the line that its wire comes in on."""
    at, outside = mirrored((pad.at, pad.outside))
    inward = at[0] - outside[0], at[1] - outside[1]
    angle = degrees(atan2(inward[1], inward[0]))
    is_upside_down = not -90 < round(angle, 6) <= 90
    long = (inward[0] ** 2 + inward[1] ** 2) ** 0.5
    text_at = at[0] + inward[0] / long * INWARD_MM, at[1] + inward[1] / long * INWARD_MM
    turn = round(angle + 180 if is_upside_down else angle, 2) % 360
    return PadShape(
        at=at,
        is_used=is_used,
        text=text,
        text_at=text_at,
        anchor="end" if is_upside_down else "start",
        turn=f"rotate({turn:g} {place(text_at)})" if turn else "",
    )
