"""Which pins of a controller the lines of a matrix would end on."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Sequence

from matrixgen.boards import Pin, Profile
from matrixgen.model import AXES, Axis, other_axis
from matrixgen.record import Record

Far = Callable[[Sequence[Pin]], float]
"""How far pins are from all that is to be wired to them, in millimetres."""


class Chosen(Record):
    """The pins of the rows and of the columns, as they leave the board."""

    rows: tuple[Pin, ...]
    columns: tuple[Pin, ...]


def choose_pins(
    profile: Profile,
    rows: int,
    columns: int,
    drive: Axis,
    without: Container[str] = (),
    far: Far | None = None,
) -> Chosen | None:
    """Return pins for so many rows and columns; None where the controller has too few.

    `without` has the names of pins that are not to be taken: those of other lines.

    A driven line needs an output and a sensed one a pull-up. No pin is taken while a cheaper one
    (`Pin.cost`) would do. Of pins that cost the same those are taken that leave fewest holes along
    the board's edges, then those that are least `far`. They are given in the order in which they
    leave the board: first the rows, then the columns, so that no two wires cross on the way.
    """
    wanted = {"row": rows, "column": columns}
    board = _Board(profile, without)
    fewest = None
    for order in board.orders(wanted[drive], wanted[other_axis(drive)]):
        taken = _taken(order, wanted[drive], wanted[other_axis(drive)])
        holes = (*board.holes(taken), far(taken) if far else 0.0)
        if fewest is None or holes < fewest:
            fewest, names = holes, {pin.name for pin in taken}
    if fewest is None:
        return None
    return _shared_out([pin for pin in board.pins if pin.name in names], wanted, drive)


def dearest_cost(profile: Profile, rows: int, columns: int, drive: Axis) -> int | None:
    """Return what the dearest of those pins asks for, see `Pin.cost`; None with too few pins."""
    driven, sensed = (rows, columns) if drive == "row" else (columns, rows)
    taken = _taken(sorted(line_pins(profile), key=_cost), driven, sensed)
    return max(map(_cost, taken)) if len(taken) == rows + columns else None


def _cost(pin: Pin) -> int:
    return pin.cost


class _Board:
    """The pins that may take a line, as they leave the board, but for those of other lines."""

    def __init__(self, profile: Profile, others: Container[str]) -> None:
        every = line_pins(profile)
        self.pins = [pin for pin in every if pin.name not in others]
        self._others = [pin.name for pin in every if pin.name in others]
        self._place = {pin.name: number for number, pin in enumerate(every)}
        self._at = profile.places_round_the_board

    def orders(self, driven: int, sensed: int) -> Iterator[list[Pin]]:
        """Yield orders to take pins in, cheapest first; none where there are too few.

        Of the dearest pins that are needed not all may be: they are taken from each of them on.
        """
        cheapest = sorted(self.pins, key=_cost)
        taken = _taken(cheapest, driven, sensed)
        if len(taken) < driven + sensed:
            return
        dearest = max(map(_cost, taken), default=0)
        for start, pin in enumerate(self.pins):
            if pin.cost == dearest:
                yield sorted(self.pins[start:] + self.pins[:start], key=_cost)
        if not taken:
            yield []

    def holes(self, taken: Sequence[Pin]) -> tuple[int, int]:
        """Return how many pins are left between the first and the last line, and how far that is.

        The way counts what is no pin, such as ground.
        """
        names = [*self._others, *(pin.name for pin in taken)]
        places = [self._place[name] for name in names] or [0]
        at = [self._at[name] for name in names if name in self._at] or [0]
        return max(places) - min(places) - len(names), max(at) - min(at)


def _taken(usable: Sequence[Pin], driven: int, sensed: int) -> list[Pin]:
    """Return so many pins as are wanted, if there are, the first ones that will do."""
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


def line_pins(profile: Profile) -> list[Pin]:
    """Return the pins that a line of some kind may end on, as they leave the board."""
    walked = profile.pins_round_the_board
    return [pin for pin in walked if pin.output or pin.pull_up]


def most_lines(profile: Profile) -> int:
    """Return how many pins of a controller a line of some kind may end on."""
    return len(line_pins(profile))
