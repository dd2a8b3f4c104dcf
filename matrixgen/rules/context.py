"""What a rule looks at: the keyboard, its controller, its matrix, and a few look-ups they share."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import cached_property
from typing import Protocol

from matrixgen.boards.profile import Pin, Profile
from matrixgen.model import Axis, Diagnostic, Keyboard, Line, Matrix, Problem, Word
from matrixgen.model.record import record

AXES: tuple[Axis, Axis] = ("row", "column")


@record
class Visit:
    """A line's visit to a key: `word` is the key's name where the line's list has it."""

    line: Line
    word: Word


@record
class Context:
    """Everything that a rule may look at."""

    keyboard: Keyboard
    profile: Profile
    matrix: Matrix

    @cached_property
    def visits(self) -> dict[Axis, dict[str, list[Visit]]]:
        """By axis and key: the lines that visit the key, each line once, in file order."""
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
        same, other = self.visits[axis], self.visits["column" if axis == "row" else "row"]
        if not other:
            return ()
        keys = {
            line.name.text: {word.text for word in line.visits}
            for line in self.keyboard.wiring.of_axis(axis)
        }
        astray = {key for key, visits in same.items() if len(visits) > 1 and key not in other}
        rest = set[str]().union(*(of_line for of_line in keys.values() if not of_line <= astray))
        lines = self.keyboard.wiring.of_axis(axis)
        return tuple(line for line in lines if set() < keys[line.name.text] <= astray & rest)

    @cached_property
    def pins(self) -> tuple[tuple[Line, Word, Pin], ...]:
        """The lines that end on a pin of this controller, in file order."""
        ended = ((line, line.pin) for line in self.keyboard.wiring.lines)
        known = ((line, word, self.profile.pin(word.text)) for line, word in ended if word)
        return tuple((line, word, pin) for line, word, pin in known if pin)

    @cached_property
    def spare_pins(self) -> tuple[Pin, ...]:
        """The usable pins that no line ends on, those with nothing to think of first."""
        taken = {pin.name for _, _, pin in self.pins}
        return tuple(pin for pin in self.profile.usable_pins if pin.name not in taken)

    def is_driven(self, line: Line) -> bool:
        """Whether the firmware pulls this line low, rather than reading it."""
        return line.axis == self.keyboard.wiring.drive


class Rule(Protocol):
    """What each rule's file holds: its problem, whose page is the docstring, and its check."""

    PROBLEM: Problem

    def check(self, context: Context, /) -> Iterator[Diagnostic]:
        """Yield what breaks this rule."""
        ...


def spare_pin_help(context: Context) -> str:
    """Return the help that names a spare pin, or says that there is none."""
    if not context.spare_pins:
        return f"`{context.profile.name}` has no spare pin"
    return f"`{context.spare_pins[0].name}` is spare"


def listed(words: list[str], joint: str = "and") -> str:
    """Return names as a reader says them: each in backticks, the last one after `joint`."""
    quoted = [f"`{word}`" for word in words]
    return f" {joint} ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 1 else quoted)
