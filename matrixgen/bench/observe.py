"""What the bench saw: what is closed at rest, and what each key closes."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.bench.board import Board
from matrixgen.bench.effect import FaultEffect
from matrixgen.bench.netlist import Netlist, Pairs
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
    """Return a board's netlist with some effects, put into it in this order."""
    netlist = Netlist(board)
    for effect in effects:
        effect.put_into(netlist)
    return netlist
