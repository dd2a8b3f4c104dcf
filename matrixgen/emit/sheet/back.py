"""The plate from behind, as it lies on the bench: left is right."""

from __future__ import annotations

from matrixgen.emit.sheet.frame import Box, Frame, frame_of, mirrored, place, polyline
from matrixgen.emit.sheet.ink import Ink
from matrixgen.model import Keyboard
from matrixgen.model.geometry import Point
from matrixgen.model.plate import HOLE_MM
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record
from matrixgen.routing import Back, Hop, Placed, PlacedDiode, Run

BESIDE_MM, ABOVE_MM, BELOW_MM = 26.0, 26.0, 14.0
LEAD_MM = 9.0
"""How much of a lead to the controller is drawn."""

LABEL_TURN = -40
"""Degrees by which labels of columns are turned, so that they stand beside each other."""

NAME_BELOW_MM = 9.6
"""Where a key's name stands, below the middle of its switch."""


class DiodeShape(Record, kw_only=True):
    """A diode: its lead from the switch's leg to its wire, the glass, and the band on it."""

    lead: str
    glass: str
    band: str


class SwitchShape(Record, kw_only=True):
    """A switch's body, post and legs from behind."""

    key: str
    body: str
    middle: Point
    legs: tuple[Point, Point]
    name_at: Point
    diode: DiodeShape | None


class HopShape(Record, kw_only=True):
    """A hop: its route, what makes it, its middle and the two keys."""

    route: str
    made: str
    middle: Point
    between: tuple[str, str]
    is_routed: bool
    is_left_out: bool


class WireShape(Record, kw_only=True):
    """A whole wire. Its lead goes to the controller from the first key; `pin` may be unknown."""

    ink: Ink
    axis: str
    hops: tuple[HopShape, ...]
    joints: tuple[Point, ...]
    lead: str
    label_at: Point
    anchor: str
    turn: str
    label: str


class BackPicture(Record, kw_only=True):
    """All of the picture."""

    box: Box
    switches: tuple[SwitchShape, ...]
    wires: tuple[WireShape, ...]
    holes: tuple[Point, ...]
    areas: tuple[tuple[float, float, float, float], ...]
    hole_radius: float = HOLE_MM / 2


def back_picture(
    keyboard: Keyboard, back: Back, inks: dict[str, Ink], pins: dict[str, str]
) -> BackPicture:
    """Return the picture of a plate's back; `pins` has what to call the pin of each line."""
    plate = keyboard.plate
    frame = frame_of(plate).mirrored()
    return BackPicture(
        box=frame.box(BESIDE_MM, ABOVE_MM, BELOW_MM),
        switches=tuple(map(_switch, back.switches)),
        wires=tuple(_wire(run, frame, inks, pins) for run in back.runs if run.joints),
        holes=tuple((-one.x * UNIT_MM, one.y * UNIT_MM) for one in plate.holes),
        areas=tuple(
            (
                -(one.x + one.width) * UNIT_MM,
                one.y * UNIT_MM,
                one.width * UNIT_MM,
                one.height * UNIT_MM,
            )
            for one in plate.keep_clear
        ),
    )


def _switch(one: Placed) -> SwitchShape:
    middle, near, far = mirrored((one.middle, one.near, one.far))
    return SwitchShape(
        key=one.key.name.text,
        body=polyline(mirrored(one.body)),
        middle=middle,
        legs=(near, far),
        name_at=(middle[0], middle[1] + NAME_BELOW_MM),
        diode=_diode(one.diode) if one.diode else None,
    )


def _diode(one: PlacedDiode) -> DiodeShape:
    """Return a diode; its band is a mark across a fifth of the glass, at the band's end."""
    band, other = mirrored((one.band, one.body[0] if one.band == one.body[1] else one.body[1]))
    start, end = _between(band, other, 0.1), _between(band, other, 0.32)
    return DiodeShape(
        lead=polyline(mirrored((one.leg, one.end))),
        glass=polyline(mirrored(one.body)),
        band=polyline((start, end)),
    )


def _wire(run: Run, frame: Frame, inks: dict[str, Ink], pins: dict[str, str]) -> WireShape:
    name = run.line.name.text
    joints = mirrored([joint.at for joint in run.joints])
    end, anchor = _lead(joints[0], run.line.axis == "row", frame)
    label_at = end[0] + (1.2 if anchor == "start" else -1.2), end[1] + 0.9
    pin = pins.get(name)
    return WireShape(
        ink=inks[name],
        axis=run.line.axis,
        hops=tuple(map(_hop, run.hops)),
        joints=joints,
        lead=f"{place(joints[0])} {place(end)}",
        label_at=label_at,
        anchor=anchor,
        turn="" if run.line.axis == "row" else f"rotate({LABEL_TURN} {place(label_at)})",
        label=f"{name} → {pin}" if pin else name,
    )


def _lead(start: Point, across: bool, frame: Frame) -> tuple[Point, str]:
    """Return where the drawn end of a lead is, and on which side of it its label stands."""
    if across:
        to_right = start[0] > (frame.left + frame.right) / 2
        return (start[0] + (LEAD_MM if to_right else -LEAD_MM), start[1]), (
            "start" if to_right else "end"
        )
    upward = start[1] < (frame.top + frame.bottom) / 2
    down = (start[0], start[1] - LEAD_MM if upward else start[1] + LEAD_MM)
    return down, "start" if upward else "end"


def _hop(hop: Hop) -> HopShape:
    route = mirrored(hop.drawn)
    longest = max(range(len(route) - 1), key=lambda n: _apart(route[n], route[n + 1]))
    return HopShape(
        route=polyline(route),
        made=hop.made,
        middle=_between(route[longest], route[longest + 1], 0.5),
        between=(hop.start.key, hop.end.key),
        is_routed=hop.route is not None,
        is_left_out=hop.is_left_out,
    )


def _apart(one: Point, other: Point) -> float:
    return abs(one[0] - other[0]) + abs(one[1] - other[1])


def _between(one: Point, other: Point, part: float) -> Point:
    return one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part
