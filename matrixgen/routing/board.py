"""The controller's board as it lies behind the plate, seen from the front, in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from matrixgen.model import ControllerPlace, Key, Line, Plate
from matrixgen.model.convex import convex, overlap
from matrixgen.model.geometry import Point, rectangle, turned_about
from matrixgen.model.switch import cut_out_mm, middle_mm
from matrixgen.record import Record
from matrixgen.routing.places import Joint

if TYPE_CHECKING:
    from matrixgen.boards import Edge, Mounted, Profile
    from matrixgen.boards.outline import BoardOutline

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

    @property
    def joint(self) -> Joint:
        """The place at the board's edge as what a route may start from."""
        return Joint(NO_KEY, self.outside)


class BoardOnPlate(Record, kw_only=True):
    """A board: its corners clockwise, its USB socket's, and the pad of each pin, by the pin's name.

    `edge` has the two corners with the socket between them; from behind, the board is on the right
    of who looks from the first one to the second.

    `behind` are the keys whose switches are before it.
    """

    corners: tuple[Point, ...]
    edge: tuple[Point, Point]
    socket: tuple[Point, ...]
    pads: Mapping[str, Pad]
    behind: tuple[Key, ...]

    @property
    def is_between_keys(self) -> bool:
        """Whether no switch is before it: wires go round it then, and below it otherwise."""
        return not self.behind

    def pad_of(self, line: Line, mounted: Mounted) -> Pad | None:
        """Return the pad that a wire ends on, None where it has none."""
        pin = mounted.pin_of(line)
        return self.pads.get(pin.name) if pin else None


SOCKET_MM = 8.0
"""How wide a USB socket is drawn: micro and C sockets are 7.5 to 9 mm (from memory)."""


def board_on_plate(plate: Plate, profile: Profile) -> BoardOnPlate | None:
    """Return the board of a controller; None where its place or its outline is not known."""
    if plate.controller is None or profile.outline is None:
        return None
    return _Placing(plate, plate.controller, profile.outline).board(profile)


class _Placing:
    """A board's outline, laid behind a plate with its parts toward whoever is there."""

    def __init__(self, plate: Plate, place: ControllerPlace, outline: BoardOutline) -> None:
        self._middle = middle_mm(place)
        self._turned = place.turned
        self._outline = outline
        self._bodies = [(key, convex(cut_out_mm(key, plate.cut_out))) for key in plate.keys]

    def board(self, profile: Profile) -> BoardOnPlate:
        corners = self._seen(*reversed(self._outline.corners))
        shape = convex(corners)
        left, right = self._seen(*self._outline.corners[:2])
        return BoardOnPlate(
            corners=corners,
            edge=(left, right),
            socket=self._at_edge(SOCKET_MM, self._outline.overhang),
            pads={
                name: self._pad(edge, number)
                for edge in profile.edges
                for number, name in enumerate(edge.names)
                if profile.pin(name)
            },
            behind=tuple(key for key, body in self._bodies if overlap(shape, body)),
        )

    def _seen(self, *points: Point) -> tuple[Point, ...]:
        """Return points of the board as they lie on the plate, seen from the front."""
        x, y = self._middle
        there = ((x - right, y + down) for right, down in points)
        return tuple(turned_about(one, self._middle, self._turned) for one in there)

    def _at_edge(self, width: float, out: float) -> tuple[Point, ...]:
        """Return a rectangle that stands out from the edge with the socket, clockwise."""
        return self._seen(*rectangle(width / 2, -out, -width / 2, 0.0))

    def _pad(self, edge: Edge, number: int) -> Pad:
        places = self._outline.pad(edge, number), self._outline.outside(edge, number, OUT_MM)
        at, outside = self._seen(*places)
        is_over = any(body.is_crossed(outside, outside) for _, body in self._bodies)
        return Pad(at, outside, is_over)
