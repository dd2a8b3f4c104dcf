"""What faults do to a netlist. Faults that do the same to it cannot be told apart by any key."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Literal

from matrixgen.bench.board import Board
from matrixgen.bench.fault import RARITY, Fault, Kind
from matrixgen.bench.netlist import Netlist
from matrixgen.model import Diode
from matrixgen.record import Record

What = Literal[
    "open", "diode", "closed", "cut", "off", "moved", "swapped", "joined", "bridged", "grounded"
]

MOVES_LEADS: frozenset[What] = frozenset({"off", "moved", "swapped"})
JOINS: frozenset[What] = frozenset({"closed", "joined", "bridged", "grounded"})
BREAKS: frozenset[What] = frozenset({"open", "cut", "off"})


DIODES: tuple[Diode, ...] = ("toward", "away", "none")


class FaultEffect(Record, kw_only=True):
    """One change to a netlist, and the faults that make it.

    `keys` are those whose press can look otherwise for it, and `lines` those that it is on. `pin`
    is the spare pin that it has to do with, of a closed switch the key; `diode` is what a key has
    then.
    """

    what: What
    faults: tuple[Fault, ...]
    lines: tuple[int, ...]
    keys: tuple[int, ...]
    pin: int = -1
    diode: Diode = "none"

    @property
    def rarity(self) -> int:
        """How rare its least rare fault is."""
        return min(RARITY[fault.kind] for fault in self.faults)

    @property
    def mixes(self) -> bool:
        """Whether it is one of whole lines, so that two of them on one line act on each other."""
        return self.what in MOVES_LEADS or self.what in JOINS

    def put_into(self, netlist: Netlist) -> None:
        """Change a netlist as this does."""
        match self.what:
            case "open":
                netlist.open.add(self.keys[0])
            case "diode":
                netlist.diode[self.keys[0]] = self.diode
            case "closed":
                netlist.closed.add(self.pin)
            case "cut":
                is_drive = self.lines[0] < netlist.board.drives
                netlist.cut(netlist.drive_end if is_drive else netlist.sense_end, self.keys)
            case "joined":
                netlist.joined.append((self.lines[0], self.lines[1]))
            case "bridged":
                netlist.bridges.append((self.lines[0], self.pin))
            case "grounded":
                netlist.grounded.add(self.lines[0])
            case _:
                self._move_leads(netlist)

    def _move_leads(self, netlist: Netlist) -> None:
        pins, first = netlist.on_pins, self.lines[0]
        if self.what == "swapped":
            other = self.lines[1]
            pins[first], pins[other] = pins[other], pins[first]
        else:
            pins[first] = (self.pin,) if self.what == "moved" else ()


def effects_of(board: Board) -> list[FaultEffect]:
    """Return every effect of one fault, but that of keys at each other's place."""
    lines = range(len(board.lines))
    found = [effect for key in range(len(board.keys)) for effect in _of_key(board, key)]
    found += [effect for line in lines for effect in _of_line(board, line)]
    found += [effect for pair in combinations(lines, 2) for effect in _of_pair(board, *pair)]
    return found


def _of_key(board: Board, key: int) -> Iterator[FaultEffect]:
    name, ends, diode = board.keys[key], board.ends[key], board.contacts[key].diode
    faults = [Fault(kind="joint", keys=(name,), lines=(board.name(line),)) for line in ends]
    faults += [one for line in ends for one in _end_hops(board, line, key)]
    if diode != "none":
        faults.append(Fault(kind="diode missing", keys=(name,)))
    faults.append(Fault(kind="switch dead", keys=(name,)))
    yield FaultEffect(what="open", faults=tuple(faults), lines=ends, keys=(key,))
    for other in DIODES:
        if other != diode:
            kind, band = _kind(diode, other), _band(board, key)
            fault = Fault(kind=kind, keys=(name,), band=band, diode=other)
            yield FaultEffect(what="diode", faults=(fault,), lines=ends, keys=(key,), diode=other)
    fault = Fault(kind="switch closed", keys=(name,))
    keys = tuple(sorted({*board.visits[ends[0]], *board.visits[ends[1]]}))
    yield FaultEffect(what="closed", faults=(fault,), lines=ends, keys=keys, pin=key)


def _kind(diode: Diode, other: Diode) -> Kind:
    if diode == "none":
        return "diode extra"
    return "diode shorted" if other == "none" else "diode turned"


def _band(board: Board, key: int) -> str:
    contact = board.contacts[key]
    drive, sense = board.ends[key]
    line = drive if contact.diode == "toward" else sense
    return f"toward the {board.axis(line)} `{board.name(line)}`"


def _end_hops(board: Board, line: int, key: int) -> Iterator[Fault]:
    """Yield the hop at either end of a line whose break cuts off this key alone."""
    visits = board.visits[line]
    if len(visits) > 1 and visits[-1] == key:
        yield _hop(board, line, len(visits) - 2)
    if len(visits) > 1 and visits[0] == key:
        yield _hop(board, line, 0)


def _hop(board: Board, line: int, place: int) -> Fault:
    keys = tuple(board.keys[key] for key in board.visits[line][place : place + 2])
    return Fault(kind="hop", keys=keys, lines=(board.name(line),))


def _of_line(board: Board, line: int) -> Iterator[FaultEffect]:
    visits, name, own = board.visits[line], board.name(line), board.pins[line]
    for place in range(len(visits) - 1):
        # The lead is on either end of the wire: which one, no file says.
        for keys in (visits[place + 1 :], visits[: place + 1]):
            if len(keys) > 1:
                faults = (_hop(board, line, place),)
                yield FaultEffect(what="cut", faults=faults, lines=(line,), keys=keys)
    lead = Fault(kind="lead", lines=(name,), pins=(own,))
    yield FaultEffect(what="off", faults=(lead,), lines=(line,), keys=visits)
    ground = Fault(kind="line on ground", lines=(name,))
    yield FaultEffect(what="grounded", faults=(ground,), lines=(line,), keys=visits)
    for pin in board.spare:
        pins = (own, board.pins[pin])
        moved = Fault(kind="lead on another pin", lines=(name,), pins=pins)
        yield FaultEffect(what="moved", faults=(moved,), lines=(line,), keys=visits, pin=pin)
        bridged = Fault(kind="pins shorted", lines=(name,), pins=pins)
        yield FaultEffect(what="bridged", faults=(bridged,), lines=(line,), keys=visits, pin=pin)


def _of_pair(board: Board, one: int, other: int) -> Iterator[FaultEffect]:
    keys = tuple(sorted({*board.visits[one], *board.visits[other]}))
    names, pins = (board.name(one), board.name(other)), (board.pins[one], board.pins[other])
    shorted = Fault(kind="lines shorted", lines=names)
    yield FaultEffect(what="joined", faults=(shorted,), lines=(one, other), keys=keys)
    swapped = Fault(kind="lines swapped", lines=names, pins=pins)
    yield FaultEffect(what="swapped", faults=(swapped,), lines=(one, other), keys=keys)
