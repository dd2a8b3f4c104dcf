"""The plate's back, wired: every hop of every wire, what makes it and its route."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from matrixgen.model import AXES, Axis, Keyboard, Line
from matrixgen.record import Record, changed
from matrixgen.routing.kept import FindRoutes, Routes, places_of
from matrixgen.routing.places import Bundle, Joint, Placed, joint_of, placed
from matrixgen.routing.wires import REACH_MM, Hop, Made, Run

if TYPE_CHECKING:
    from matrixgen.boards import Mounted
    from matrixgen.routing.board import BoardOnPlate, Pad
    from matrixgen.routing.router import Routed

MOST_PIECES = 3_000_000
"""Pieces of possible routes that are thought of for a plate: about seven seconds' worth."""

MOST_BUNDLED = 8000
"""From more hops than these no bundles are drawn: the largest matrix has a fourth as many."""


class Back(Record, kw_only=True):
    """All of it, seen from the front. `diode_axis` says which wires the diodes are joined to.

    `bundles` are where wires of `runs`, told by their numbers, lie on each other; they are only
    known where wires were laid `apart`. `board` is the controller's, where its place is known.
    """

    diode_axis: Axis
    switches: tuple[Placed, ...]
    runs: tuple[Run, ...]
    bundles: tuple[Bundle, ...] = ()
    board: BoardOnPlate | None = None

    @property
    def left_out(self) -> tuple[Run, ...]:
        """The wires with a hop that no route was looked for."""
        return tuple(run for run in self.runs if any(hop.is_left_out for hop in run.all_hops))


def back_of(
    keyboard: Keyboard,
    most_pieces: int = MOST_PIECES,
    *,
    apart: bool = False,
    mounted: Mounted | None = None,
    find: FindRoutes | None = None,
) -> Back:
    """Return the plate's back as it can be wired: rows first, then columns, in file order.

    Wires keep off switches that they do not visit, off screw holes and off what is to be kept
    clear. The diodes go on the side where their leads make the more hops. After `most_pieces` of
    possible routes no more are looked for. Routes are the shortest ones; to be drawn, wires also
    lie `apart` from each other, for which two thirds as many pieces are thought of. With what the
    keyboard is `mounted` on, the wires to a controller whose place is known are routed too. `find`
    may have the routes from before (`kept.py`).
    """
    axis = diode_axis(keyboard)
    switches = placed(keyboard, axis)
    at = {one: _joints(keyboard, switches, one, axis) for one in AXES}
    runs = [
        (line, tuple(at[line.axis][word.text] for word in line.visits))
        for one in AXES
        for line in keyboard.wiring.of_axis(one)
    ]
    board = _board(mounted) if mounted else None
    pads = [board.pad_of(line, mounted) if mounted and board else None for line, _ in runs]
    ways = [
        (pad.joint, *joints) if pad and joints else joints
        for pad, (_, joints) in zip(pads, runs, strict=True)
    ]

    def search(most: int) -> Routes:
        return _routes(keyboard, switches, ways, most, apart, board)

    decide = places_of(keyboard, switches, ways, board) if find else ""
    routes = find(decide, search, most_pieces) if find else search(most_pieces)
    on_diodes = {one.key.name.text for one in switches if one.diode}
    wired = tuple(
        _run(line, way, pad, found, on_diodes if line.axis == axis else set())
        for (line, _), way, pad, found in zip(runs, ways, pads, routes, strict=True)
    )
    bundles = _bundles(wired) if apart else ()
    return Back(diode_axis=axis, switches=switches, runs=wired, bundles=bundles, board=board)


def _board(mounted: Mounted) -> BoardOnPlate | None:
    from matrixgen.routing.board import board_on_plate  # only here: a check without one need not

    return board_on_plate(mounted.keyboard.plate, mounted.profile)


def _run(
    line: Line, way: tuple[Joint, ...], pad: Pad | None, routes: list[Routed], on_diodes: set[str]
) -> Run:
    """Return a wire; the first hop of its way is to the controller, if it has a pad."""
    if pad is None or not way:
        return Run(line=line, joints=way, hops=_hops(way, routes, on_diodes))
    (to_pad,), joints = _hops(way[:2], routes[:1], set()), way[1:]
    if to_pad.route:
        to_pad = changed(to_pad, route=(pad.at, *to_pad.route))
    elif pad.is_over_switch:
        to_pad = changed(to_pad, route=(pad.at, joints[0].at))
    return Run(line=line, joints=joints, hops=_hops(joints, routes[1:], on_diodes), lead=to_pad)


def _bundles(runs: tuple[Run, ...]) -> tuple[Bundle, ...]:
    from matrixgen.routing.bundles import bundles_of

    drawn = [(number, hop.drawn) for number, run in enumerate(runs) for hop in run.all_hops]
    return bundles_of(drawn) if len(drawn) <= MOST_BUNDLED else ()


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
    board: BoardOnPlate | None,
) -> list[list[Routed]]:
    from matrixgen.routing.corners import Patience  # only here: hardly a check needs them
    from matrixgen.routing.router import Router

    router = Router(keyboard.plate, switches, Patience(most_pieces), board)
    return router.apart(runs, Patience(most_pieces * 2 // 3)) if apart else router.routed(runs)


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
