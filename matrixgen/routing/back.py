"""The plate's back, wired: every hop of every wire, what makes it and its route."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING, Literal

from matrixgen.model import AXES, Axis, Keyboard, Line
from matrixgen.record import Record, changed
from matrixgen.routing.places import (
    LEAD_BEFORE_BODY_MM,
    Bundle,
    Joint,
    Placed,
    Route,
    joint_of,
    placed,
)

if TYPE_CHECKING:
    from matrixgen.routing.router import Routed

MOST_PIECES = 3_000_000
"""Pieces of possible routes that are thought of for a plate: about ten seconds' worth."""

Made = Literal["lead", "jumper", "wire"]
"""What makes a hop: the free lead of the diode at its first key, a piece of wire of its own where
no lead gets so far, or a stretch of one wire that goes from key to key."""

LEAD_MM = 25.4
"""How long a diode's lead is, at least: DO-35 (Vishay 81857, package drawing)."""

JOINT_MM = 2.0
"""Lead that the joint at a hop's far end takes. Common practice, no source."""

REACH_MM = LEAD_MM - LEAD_BEFORE_BODY_MM - JOINT_MM
"""How far a diode's lead gets beyond the place where it is joined to its own wire."""


class Hop(Record, kw_only=True):
    """A wire from one key to the next that it visits.

    `route` is None where none was found round what is in its way; where it `is_left_out`, none was
    looked for, since that had taken too long for the others. Where it `is_in_haste`, there was a
    route, and no time left to lay it beside other wires.
    """

    start: Joint
    end: Joint
    made: Made
    route: Route | None
    is_left_out: bool = False
    is_in_haste: bool = False

    @property
    def drawn(self) -> Route:
        """The route, or a straight one where none was found."""
        return self.route or (self.start.at, self.end.at)

    @property
    def length_mm(self) -> float:
        """How long it is."""
        return sum(dist(one, other) for one, other in pairwise(self.drawn))


class Run(Record, kw_only=True):
    """A whole wire: its joints and hops in soldering order. Its lead starts at the first joint."""

    line: Line
    joints: tuple[Joint, ...]
    hops: tuple[Hop, ...]

    @property
    def length_mm(self) -> float:
        """How long it is from its first key to its last."""
        return sum(hop.length_mm for hop in self.hops)


class Back(Record, kw_only=True):
    """All of it, seen from the front. `diode_axis` says which wires the diodes are joined to.

    `bundles` are where wires of `runs`, told by their numbers, lie on each other; they are only
    known where wires were laid `apart`.
    """

    diode_axis: Axis
    switches: tuple[Placed, ...]
    runs: tuple[Run, ...]
    bundles: tuple[Bundle, ...] = ()

    @property
    def left_out(self) -> tuple[Run, ...]:
        """The wires with a hop that no route was looked for."""
        return tuple(run for run in self.runs if any(hop.is_left_out for hop in run.hops))


def back_of(keyboard: Keyboard, most_pieces: int = MOST_PIECES, *, apart: bool = False) -> Back:
    """Return the plate's back as it can be wired: rows first, then columns, in file order.

    Wires keep off switches that they do not visit, off screw holes and off what is to be kept
    clear. The diodes go on the side where their leads make the more hops. After `most_pieces` of
    possible routes no more are looked for. Routes are the shortest ones; to be drawn, wires also
    lie `apart` from each other, for which as many pieces are thought of once more.
    """
    axis = diode_axis(keyboard)
    switches = placed(keyboard, axis)
    at = {one: _joints(keyboard, switches, one, axis) for one in AXES}
    runs = [
        (line, tuple(at[line.axis][word.text] for word in line.visits))
        for one in AXES
        for line in keyboard.wiring.of_axis(one)
    ]
    routes = _routes(keyboard, switches, [joints for _, joints in runs], most_pieces, apart)
    on_diodes = {one.key.name.text for one in switches if one.diode}
    wired = tuple(
        Run(
            line=line,
            joints=joints,
            hops=_hops(joints, found, on_diodes if line.axis == axis else set()),
        )
        for (line, joints), found in zip(runs, routes, strict=True)
    )
    bundles = _bundles(wired) if apart else ()
    return Back(diode_axis=axis, switches=switches, runs=wired, bundles=bundles)


def _bundles(runs: tuple[Run, ...]) -> tuple[Bundle, ...]:
    from matrixgen.routing.bundles import bundles_of

    return bundles_of((number, hop.drawn) for number, run in enumerate(runs) for hop in run.hops)


def diode_axis(keyboard: Keyboard) -> Axis:
    """Return the axis on which more hops are short enough for a diode's lead: rows, if as many."""
    short = {axis: _short_hops(keyboard, axis) for axis in AXES}
    return "column" if short["column"] > short["row"] else "row"


def _short_hops(keyboard: Keyboard, axis: Axis) -> int:
    joints = _joints(keyboard, placed(keyboard, axis), axis, axis)
    return sum(
        dist(joints[one.text].at, joints[other.text].at) <= REACH_MM
        for line in keyboard.wiring.of_axis(axis)
        for one, other in pairwise(line.visits)
    )


def _joints(
    keyboard: Keyboard, switches: tuple[Placed, ...], axis: Axis, with_diodes: Axis
) -> dict[str, Joint]:
    return {
        one.key.name.text: Joint(one.key.name.text, joint_of(one, axis, with_diodes))
        for one in switches
    }


def _routes(
    keyboard: Keyboard,
    switches: tuple[Placed, ...],
    runs: list[tuple[Joint, ...]],
    most_pieces: int,
    apart: bool,
) -> list[list[Routed]]:
    from matrixgen.routing.corners import Patience  # only here: hardly a check needs them
    from matrixgen.routing.router import Router

    router = Router(keyboard.plate, switches, Patience(most_pieces))
    return router.apart(runs, Patience(most_pieces)) if apart else router.routed(runs)


def _hops(joints: tuple[Joint, ...], routes: list[Routed], on_diodes: set[str]) -> tuple[Hop, ...]:
    """Return the hops of a wire; `on_diodes` has the keys whose diodes could make them."""
    by_diodes = any(joint.key in on_diodes for joint in joints)
    hops = []
    for (start, end), (route, left_out, in_haste) in zip(pairwise(joints), routes, strict=True):
        hop = Hop(
            start=start,
            end=end,
            made="wire",
            route=route,
            is_left_out=left_out,
            is_in_haste=in_haste,
        )
        if by_diodes:
            reaches = start.key in on_diodes and route is not None and hop.length_mm <= REACH_MM
            made: Made = "lead" if reaches else "jumper"
            hop = changed(hop, made=made)
        hops.append(hop)
    return tuple(hops)
