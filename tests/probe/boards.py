"""Boards for the tests: those of the examples, and small ones of a text."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from matrixgen.bench.board import Board, board_of
from matrixgen.bench.netlist import Netlist
from matrixgen.bench.observe import Exchange, Seen
from matrixgen.bench.suspects import Suspects
from matrixgen.jobs.examine import examine, examine_text
from tests.examples.shipped import FOLDER, NAMES

SMALL = {
    "with diodes": "diodes 1N4148, band toward columns",
    "without diodes": "without diode A B C D E",
    "some of each": "diodes 1N4148, band toward columns\n  without diode B E\n  reversed C",
}
"""What the block `wiring` of each small board says of its diodes."""


@cache
def suspects_of(name: str) -> Suspects:
    """The suspects of an example or of a small board, each worked out once."""
    return Suspects(example_board(name) if name in NAMES else small_board(name))


def example_board(name: str) -> Board:
    board = board_of(examine(str(FOLDER / name / f"{name}.keys")).mounted[0])
    assert board
    return board


def small_text(name: str) -> str:
    """Five keys on two rows and three columns."""
    return f"""keyboard "Small"
  controller stick-32u4

plate
  line A B C
  line D E

wiring
  drive columns, sense rows
  {SMALL[name]}
  row    r0 on PD0  A B C
  row    r1 on PD1  D E
  column c0 on PB4  A D
  column c1 on PB5  B E
  column c2 on PB6  C
"""


def small_board(name: str) -> Board:
    """A small board, with one spare pin."""
    mounted = examine_text("small.keys", small_text(name), Path()).mounted[0]
    board = board_of(mounted, ["PD0", "PD1", "PB4", "PB5", "PB6", "PD4"])
    assert board
    return board


def seen_of(netlist: Netlist, *exchanges: Exchange) -> Seen:
    """What the bench sees of a netlist when each key was pressed once."""
    places = list(range(len(netlist.board.keys)))
    for one, other in exchanges:
        places[one], places[other] = places[other], places[one]
    pressed = {key: netlist.pressed(place) for key, place in enumerate(places)}
    return Seen(netlist.at_rest(), pressed)
