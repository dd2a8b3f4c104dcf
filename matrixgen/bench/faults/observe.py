"""What the bench saw: what is closed at rest, and what each key closes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import FaultEffect, in_order
from matrixgen.bench.faults.netlist import Netlist, Pairs
from matrixgen.record import Record

Exchange = tuple[int, int]
"""The places of two keys that sit at each other's place."""


class Seen(Record):
    """The pairs that are closed at rest, and those that each key adds, by the key's place.

    A key that was not pressed yet is not in `keys`.
    """

    rest: Pairs
    keys: Mapping[int, Pairs]


def netlist_with(board: Board, *effects: FaultEffect) -> Netlist:
    """Return a board's netlist with some effects; swapped wires are swapped in this order."""
    netlist = Netlist(board)
    for effect in in_order(effects) if len(effects) > 1 else effects:
        effect.put_into(netlist)
    return netlist


def places_with(board: Board, exchanges: Iterable[Exchange]) -> list[int]:
    """Return the place at which each key is, after some exchanges in this order."""
    places = list(range(len(board.keys)))
    for one, other in exchanges:
        places[one], places[other] = places[other], places[one]
    return places
