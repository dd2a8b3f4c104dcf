"""Every effect of one fault on a board, but that of keys at each other's place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import FaultEffect
from matrixgen.bench.faults.fault import Fault, FaultKind, KeyHalf
from matrixgen.model import Diode

DIODES: tuple[Diode, ...] = ("toward", "away", "none")
SIDES: tuple[KeyHalf, KeyHalf] = ("drive", "sense")


def effects_of(board: Board) -> list[FaultEffect]:
    """Return every effect of one fault, but that of keys at each other's place."""
    lines, pins = range(len(board.lines)), range(len(board.pins))
    found = [effect for key in range(len(board.keys)) for effect in _of_key(board, key)]
    found += [effect for line in lines for effect in _of_line(board, line)]
    found += [effect for line in lines for effect in _of_hops(board, line)]
    found += [effect for pair in combinations(lines, 2) for effect in _of_pair(board, *pair)]
    found += [_bridge(board, *pair) for pair in combinations(pins, 2)]
    for pair in board.near:
        if "none" not in (board.diodes[pair[0]], board.diodes[pair[1]]):
            found += [_middles(board, *pair, side) for side in SIDES]
    return found


def _of_key(board: Board, key: int) -> Iterator[FaultEffect]:
    name, ends = board.keys[key], board.ends[key]
    faults = [one for side in SIDES for one in _joints(board, key, side)]
    if board.diodes[key] != "none":
        faults.append(Fault(kind="diode missing", keys=(name,)))
    faults.append(Fault(kind="switch dead", keys=(name,)))
    yield FaultEffect(what="open", faults=tuple(faults), lines=ends, keys=(key,))
    yield from _other_diodes(board, key)
    fault = Fault(kind="switch closed", keys=(name,))
    yield FaultEffect(what="closed", faults=(fault,), lines=ends, keys=(key,))
    for side, own in zip(SIDES, ends, strict=True):
        yield from (
            _leg(board, key, side, own, line)
            for line in range(len(board.lines))
            if line not in ends
        )
    if board.diodes[key] != "none":
        yield from (
            _middle(board, key, line, side)
            for line in sorted(board.lines_near[key])
            for side in SIDES
        )


def _joints(board: Board, key: int, side: KeyHalf) -> Iterator[Fault]:
    """Yield the joint at one end of a key, and a hop whose break cuts off this key alone."""
    line = board.ends[key][SIDES.index(side)]
    yield Fault(kind="joint", keys=(board.keys[key],), lines=(board.name(line),))
    yield from (_broken(board, hop) for hop in _hops(board, line) if hop.beyond == (key,))


def halves_of(board: Board, key: int, diode_side: KeyHalf) -> Iterator[FaultEffect]:
    """Yield what opens one half of a key, the switch or the diode, which is on one side of it.

    It makes a difference only where the middle of the key touches something.
    """
    for side in SIDES:
        kind: FaultKind = "diode missing" if side == diode_side else "switch dead"
        at = Fault(kind=kind, keys=(board.keys[key],), side=diode_side)
        faults = (*_joints(board, key, side), at)
        lines = board.ends[key]
        yield FaultEffect(what="half open", faults=faults, lines=lines, keys=(key,), side=side)


def _other_diodes(board: Board, key: int) -> Iterator[FaultEffect]:
    name, ends, diode = board.keys[key], board.ends[key], board.diodes[key]
    for other in DIODES:
        if other != diode:
            kind, band = _diode_kind(diode, other), _band(board, key)
            fault = Fault(kind=kind, keys=(name,), band=band, diode=other)
            yield FaultEffect(what="diode", faults=(fault,), lines=ends, keys=(key,), diode=other)


def _diode_kind(diode: Diode, other: Diode) -> FaultKind:
    if diode == "none":
        return "diode extra"
    return "diode shorted" if other == "none" else "diode turned"


def _band(board: Board, key: int) -> str:
    drive, sense = board.ends[key]
    line = drive if board.diodes[key] == "toward" else sense
    return f"toward the {board.axis(line)} `{board.name(line)}`"


def _leg(board: Board, key: int, side: KeyHalf, own: int, line: int) -> FaultEffect:
    names = (board.name(own), board.name(line))
    faults = [Fault(kind="leg on another wire", keys=(board.keys[key],), lines=names)]
    faults += [_broken(board, hop, line) for hop in _hops(board, own) if hop.beyond == (key,)]
    return FaultEffect(what="leg", faults=tuple(faults), lines=(own, line), keys=(key,), side=side)


def _middle(board: Board, key: int, line: int, side: KeyHalf) -> FaultEffect:
    fault = Fault(
        kind="middle touches wire", keys=(board.keys[key],), lines=(board.name(line),), side=side
    )
    lines = (*board.ends[key], line)
    return FaultEffect(what="middle", faults=(fault,), lines=lines, keys=(key,), side=side)


def _middles(board: Board, one: int, other: int, side: KeyHalf) -> FaultEffect:
    names = (board.keys[one], board.keys[other])
    fault = Fault(kind="middles touch", keys=names, side=side)
    lines = tuple(dict.fromkeys([*board.ends[one], *board.ends[other]]))
    return FaultEffect(what="middles", faults=(fault,), lines=lines, keys=(one, other), side=side)


class _LineHop(NamedTuple):
    """A hop of a line from either end: the key before it, those beyond, which end it is.

    Which end of the wire the controller wire is on, no file says.
    """

    line: int
    near: int
    beyond: tuple[int, ...]
    is_first: bool


def _hops(board: Board, line: int) -> Iterator[_LineHop]:
    """Yield each hop of a line, from either end."""
    visits = board.visits[line]
    for place, (one, other) in enumerate(pairwise(visits)):
        yield _LineHop(line, one, visits[place + 1 :], True)
        yield _LineHop(line, other, visits[: place + 1], False)


def _broken(board: Board, hop: _LineHop, *touched: int) -> Fault:
    """Return a hop that is open, or one whose piece touches another line besides."""
    name, loose = board.name(hop.line), hop.beyond[0 if hop.is_first else -1]
    first, last = (name, "") if hop.is_first else ("", name)
    return Fault(
        kind="piece touches" if touched else "hop",
        keys=(board.keys[hop.near], board.keys[loose]),
        lines=(name, *map(board.name, touched)),
        first=first,
        last=last,
    )


def _of_hops(board: Board, line: int) -> Iterator[FaultEffect]:
    """Yield each break of a line that cuts off several keys, and what their piece may touch."""
    side, others = SIDES[line >= board.drives], [*range(len(board.lines))]
    others.remove(line)
    for hop in _hops(board, line):
        keys = hop.beyond
        if len(keys) == 1:
            continue
        faults = (_broken(board, hop),)
        yield FaultEffect(what="cut", faults=faults, lines=(line,), keys=keys, side=side)
        for other in others:
            faults, lines = (_broken(board, hop, other),), (line, other)
            yield FaultEffect(what="piece", faults=faults, lines=lines, keys=keys, side=side)


def _of_line(board: Board, line: int) -> Iterator[FaultEffect]:
    keys, name, own = board.visits[line], board.name(line), board.pins[line]
    lead = Fault(kind="lead", lines=(name,), pins=(own,))
    yield FaultEffect(what="off", faults=(lead,), lines=(line,), keys=keys)
    ground = Fault(kind="line on ground", lines=(name,))
    yield FaultEffect(what="grounded", faults=(ground,), lines=(line,), keys=keys)
    for pin in range(len(board.pins)):
        if pin != line:
            yield _moved(board, line, pin)


def _moved(board: Board, line: int, pin: int) -> FaultEffect:
    names: tuple[str, ...] = (board.name(line),)
    lines: tuple[int, ...] = (line,)
    pins = (board.pins[line], board.pins[pin])
    kind: FaultKind = "lead on another pin"
    if pin < len(board.lines):
        kind, names, lines = "lead on a taken pin", (*names, board.name(pin)), (line, pin)
    fault = Fault(kind=kind, lines=names, pins=pins)
    keys = tuple(sorted({key for one in lines for key in board.visits[one]}))
    return FaultEffect(what="moved", faults=(fault,), lines=lines, keys=keys, pins=(pin,))


def _of_pair(board: Board, one: int, other: int) -> Iterator[FaultEffect]:
    keys = tuple(sorted({*board.visits[one], *board.visits[other]}))
    names, pins = (board.name(one), board.name(other)), (board.pins[one], board.pins[other])
    shorted = Fault(kind="lines shorted", lines=names)
    yield FaultEffect(what="joined", faults=(shorted,), lines=(one, other), keys=keys)
    swapped = Fault(kind="lines swapped", lines=names, pins=pins)
    yield FaultEffect(what="swapped", faults=(swapped,), lines=(one, other), keys=keys)


def _bridge(board: Board, one: int, other: int) -> FaultEffect:
    pins = (one, other)
    lines = tuple(pin for pin in pins if pin < len(board.lines))
    fault = Fault(kind="pins shorted", pins=(board.pins[one], board.pins[other]))
    keys = tuple(sorted({key for line in lines for key in board.visits[line]}))
    return FaultEffect(what="bridged", faults=(fault,), lines=lines, keys=keys, pins=pins)
