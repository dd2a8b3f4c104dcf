"""Which pins of a controller the lines of a matrix would end on."""

from __future__ import annotations

from collections.abc import Container, Sequence

from matrixgen.boards import Pin, Profile
from matrixgen.model import AXES, Axis
from matrixgen.record import Record


class Chosen(Record):
    """The pins of the rows and of the columns, as they leave the board."""

    rows: tuple[Pin, ...]
    columns: tuple[Pin, ...]


def choose_pins(
    profile: Profile, rows: int, columns: int, drive: Axis, without: Container[str] = ()
) -> Chosen | None:
    """Return pins for so many rows and columns; None where the controller has too few.

    `without` has the names of pins that are not to be taken.

    A driven line needs an output and a sensed one a pull-up. Pins that do nothing else are taken
    first. They are given in the order in which they leave the board: first the rows, then the
    columns, so that no two wires cross on the way.
    """
    wanted = {"row": rows, "column": columns}
    sense: Axis = "row" if drive == "column" else "column"
    usable = [pin for pin in profile.usable_pins if pin.name not in without]
    taken = _taken(usable, wanted[drive], wanted[sense])
    if len(taken) < rows + columns:
        return None
    names = {pin.name for pin in taken}
    walked = [pin for pin in profile.pins_round_the_board if pin.name in names]
    return _shared_out(walked, wanted, drive)


def _taken(usable: Sequence[Pin], driven: int, sensed: int) -> list[Pin]:
    """Return so many pins as are wanted, if there are, those with nothing to think of first."""
    taken: list[Pin] = []
    only_driven = only_sensed = 0
    for pin in usable:
        if len(taken) == driven + sensed:
            break
        if not pin.pull_up:
            if not pin.output or only_driven == driven:
                continue
            only_driven += 1
        elif not pin.output:
            if only_sensed == sensed:
                continue
            only_sensed += 1
        taken.append(pin)
    return taken


def _shared_out(walked: Sequence[Pin], wanted: dict[str, int], drive: Axis) -> Chosen:
    """Return pins by axis: the first ones that can be rows are, as many as are wanted."""

    def can_be(pin: Pin, axis: Axis) -> bool:
        return pin.output if axis == drive else pin.pull_up

    row, column = AXES
    rows = [pin for pin in walked if not can_be(pin, column)]
    either = [pin for pin in walked if can_be(pin, row) and can_be(pin, column)]
    rows += either[: wanted[row] - len(rows)]
    of_rows = {pin.name for pin in rows}
    return Chosen(
        tuple(pin for pin in walked if pin.name in of_rows),
        tuple(pin for pin in walked if pin.name not in of_rows),
    )


def most_lines(profile: Profile) -> int:
    """Return how many pins of a controller a line of some kind may end on."""
    return sum(pin.output or pin.pull_up for pin in profile.usable_pins)
