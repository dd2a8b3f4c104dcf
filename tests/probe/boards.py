"""Boards for the tests: those of the examples, and small ones of a text."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import cache

from matrixgen.bench.faults.board import Board, board_of
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import Exchange, Seen, places_with
from matrixgen.bench.faults.suspects import Suspects
from matrixgen.boards import Mounted
from matrixgen.jobs.examine import examine
from tests.examples.shipped import FOLDER, NAMES
from tests.probe.slips import Slip, every_slip, made_for, place_of, soldered
from tests.probe.soldered import Plan, plan_of
from tests.texts import examined

SMALL = {
    "with diodes": "diodes 1N4148, band toward columns",
    "without diodes": "without diode A B C D E",
    "some of each": "diodes 1N4148, band toward columns\n  without diode B E\n  reversed C",
}
"""What the block `wiring` of each small board says of its diodes."""

SMALL_PINS = ("PD0", "PD1", "PB4", "PB5", "PB6", "PD4")
TINY = "four keys"
EIGHT = "eight keys"
WIRED = {
    TINY: (
        ("A B", "C D"),
        ("row r0 on PD0 A B", "row r1 on PD1 C D", "column c0 on PB4 A C", "column c1 on PB5 B D"),
        ("PD0", "PD1", "PB4", "PB5", "PD4"),
    ),
    EIGHT: (
        ("A B C D", "E F G H"),
        (
            *("row r0 on PD0 A B C D", "row r1 on PD1 E F G H", "column c0 on PB4 A E"),
            *("column c1 on PB5 B F", "column c2 on PB6 C G", "column c3 on PD4 D H"),
        ),
        ("PD0", "PD1", "PB4", "PB5", "PB6", "PD4", "PC6"),
    ),
}
"""Two more boards: the lines of the plate, the wires, and the pins that the bench reads."""


@cache
def suspects_of(name: str) -> Suspects:
    """The suspects of an example or of a small board, each worked out once."""
    return Suspects(example_board(name) if name in NAMES else small_board(name))


@cache
def plan(name: str) -> Plan:
    """The same board for the second model."""
    if name in NAMES:
        return plan_of(mounted_example(name))
    return plan_of(mounted_small(name), pins_of(name))


def pins_of(name: str) -> tuple[str, ...]:
    """The pins that the bench reads of a small board."""
    return WIRED[name][2] if name in WIRED else SMALL_PINS


@cache
def slips(name: str) -> tuple[Slip, ...]:
    """Every slip that can happen to a board."""
    board = suspects_of(name).board
    near = [(board.keys[one], board.keys[other]) for one, other in board.near]
    return tuple(every_slip(plan(name), near))


def example_board(name: str) -> Board:
    board = board_of(mounted_example(name))
    assert board
    return board


def mounted_example(name: str) -> Mounted:
    return examine(str(FOLDER / name / f"{name}.keys")).mounted[0]


def wired_text(name: str) -> str:
    """A board of `WIRED`, with a diode at each key."""
    plate, wires, _ = WIRED[name]
    rows = [
        *('keyboard "Small"', "  controller stick-32u4", "", "plate"),
        *(f"  line {keys}" for keys in plate),
        *("", "wiring", "  drive columns, sense rows", "  diodes 1N4148, band toward columns"),
        *(f"  {wire}" for wire in wires),
    ]
    return "\n".join(rows) + "\n"


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


def mounted_small(name: str) -> Mounted:
    text = wired_text(name) if name in WIRED else small_text(name)
    return examined(text).mounted[0]


def small_board(name: str) -> Board:
    """A small board, with one spare pin."""
    board = board_of(mounted_small(name), pins_of(name))
    assert board
    return board


def seen_of(netlist: Netlist, *exchanges: Exchange) -> Seen:
    """What the bench sees of a netlist when each key was pressed once."""
    places = places_with(netlist.board, exchanges)
    pressed = {key: netlist.pressed(place) for key, place in enumerate(places)}
    return Seen(netlist.at_rest(), pressed)


def seen_with(name: str, slips: Collection[Slip]) -> Seen | None:
    """What the second model shows of a board with some slips; None where no board has them."""
    made = made_for(slips)
    if made is None:
        return None
    board, real = suspects_of(name).board, soldered(plan(name), made, slips)
    places = place_of(plan(name), slips)
    rest = board.numbers_of(real.pairs())
    pressed = (board.numbers_of(real.pairs([places[key]])) - rest for key in board.keys)
    return Seen(rest, dict(enumerate(pressed)))


def named(slips: Iterable[Slip]) -> str:
    """Slips as they are called, for a test's report."""
    return "; ".join(f"{one.kind} {' '.join(one.at)}" for one in slips)
