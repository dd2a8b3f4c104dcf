"""What a rule looks at, and a few look-ups that rules share."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING, Protocol, TypeVar

from matrixgen.boards.mounted import Mounted
from matrixgen.boards.profile import Profile
from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.network import Network
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.circuit.settling import Settling
from matrixgen.model import (
    AXES,
    Allowance,
    Axis,
    Diagnostic,
    Keyboard,
    Line,
    Matrix,
    Problem,
    Word,
    other_axis,
    turned_right,
)
from matrixgen.model import matrix_of as matrix_of_keyboard
from matrixgen.model.layer_states import LayerKeys
from matrixgen.record import Record
from matrixgen.rules.layers.latch_states import Steps, latch_steps

if TYPE_CHECKING:
    from matrixgen.routing.board import BoardOnPlate


class Visit(Record):
    """A line's visit to a key: `word` is the key's name where the line's list has it."""

    line: Line
    word: Word


class Context(Record):
    """A keyboard, for the rules that need not know where it is mounted.

    `allowances` is for a rule that makes one finding of several places: those that the file allows
    are to be kept apart from the others.
    """

    keyboard: Keyboard
    allowances: tuple[Allowance, ...] = ()

    @cached_property
    def matrix(self) -> Matrix:
        """Where each key's wires meet."""
        return matrix_of_keyboard(self.keyboard)

    @cached_property
    def ghosts(self) -> GhostReport:
        """Which keys that are not pressed seem so, once all diodes point as the scan wants them.

        What points away from its driven line is a mistake of its own, which is reported first.
        """
        return GhostReport(self.keyboard, turned_right(self.matrix))

    @cached_property
    def layer_keys(self) -> LayerKeys:
        """What turns layers on and off, and which can be on together."""
        return LayerKeys(self.keyboard)

    @cached_property
    def latch_steps(self) -> Steps | None:
        """Which layers can stay on, and what a press makes of them; None for too many sets."""
        return latch_steps(self.layer_keys)

    @property
    def is_all_against_scan(self) -> bool:
        """Whether there are diodes, and all of them point away from the driven lines."""
        kinds = {one.diode for one in self.matrix.contacts}
        return "away" in kinds and "toward" not in kinds

    @cached_property
    def visits(self) -> dict[Axis, dict[str, list[Visit]]]:
        """The visits to each key, by axis and key, in file order; a line counts once a key."""
        found: dict[Axis, dict[str, list[Visit]]] = {axis: defaultdict(list) for axis in AXES}
        for line in self.keyboard.wiring.lines:
            of_key = found[line.axis]
            for word in line.visits:
                visits = of_key[word.text]
                if not visits or visits[-1].line is not line:
                    visits.append(Visit(line, word))
        return found

    def misnamed_lines(self, axis: Axis) -> tuple[Line, ...]:
        """Return the lines whose keys are all on another line of the axis and on none of the other.

        Most likely `row` was written for `column`, or the other way round.
        """
        same, other = self.visits[axis], self.visits[other_axis(axis)]
        if not other:
            return ()
        lines = self.keyboard.wiring.of_axis(axis)
        keys = {line.name.text: {word.text for word in line.visits} for line in lines}
        doubled = {key for key, visits in same.items() if len(visits) > 1 and key not in other}
        rest = set[str]().union(*(of_line for of_line in keys.values() if not of_line <= doubled))
        return tuple(line for line in lines if set() < keys[line.name.text] <= doubled & rest)


class MountedContext(Record):
    """A keyboard on one controller, for the rules on pins and on what the controller can do."""

    mounted: Mounted

    @property
    def keyboard(self) -> Keyboard:
        """The keyboard itself."""
        return self.mounted.keyboard

    @cached_property
    def matrix(self) -> Matrix:
        """Where each key's wires meet."""
        return matrix_of_keyboard(self.keyboard)

    @cached_property
    def board(self) -> BoardOnPlate | None:
        """The controller's board on the plate; None where its place or its outline is not known."""
        plate = self.keyboard.plate
        if plate.controller is None:
            return None
        from matrixgen.routing.board import board_on_plate  # only here: hardly a check needs it

        return board_on_plate(plate, self.profile)

    @cached_property
    def settling(self) -> Settling:
        """How its sensed lines rise."""
        return Settling(self.mounted, self.matrix)

    @cached_property
    def levels(self) -> LevelsOverSupply | None:
        """The levels that its pins read; None where nothing is known of its diodes.

        Where some diodes point the wrong way, which is reported, they are those with these turned.
        """
        if self.mounted.diode is None:
            return None
        is_seen = any(one.diode == "toward" for one in self.matrix.contacts)
        network = Network(turned_right(self.matrix) if is_seen else self.matrix)
        return LevelsOverSupply(self.mounted, network, self.mounted.diode)

    @property
    def profile(self) -> Profile:
        """What is known of the controller."""
        return self.mounted.profile

    def pin_called(self, line: Line) -> str:
        """Return the pin of a wire in words, be it known or not."""
        pin = self.mounted.pin_of(line)
        return f"`{pin.name}`" if pin else f"the pin of `{line.name}`"

    def is_driven(self, line: Line) -> bool:
        """Whether the firmware pulls this line low, rather than reading it."""
        return line.axis == self.keyboard.wiring.drive


Asked = TypeVar("Asked", contravariant=True)


class Rule(Protocol[Asked]):
    """What the file of a rule holds, for what it looks at; its page is the file's docstring."""

    __name__: str
    PROBLEM: Problem

    def check(self, context: Asked, /) -> Iterator[Diagnostic]:
        """Yield what breaks this rule."""
        ...


def said_again(words: Iterable[Word]) -> Iterator[tuple[Word, Word]]:
    """Yield each word that was said before, with the first one like it."""
    first: dict[str, Word] = {}
    for word in words:
        if (earlier := first.setdefault(word.text, word)) is not word:
            yield word, earlier


def spare_pin_help(context: MountedContext) -> str:
    """Return the help that names a spare pin, or says that there is none."""
    spare = context.mounted.spare_pins
    if not spare:
        return f"`{context.profile.name}` has no spare pin"
    return f"`{spare[0].name}` is spare"
