"""The steps of knobs, which layers give actions to as they do to keys."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.actions import Nothing
from matrixgen.model.diagnostic import Note
from matrixgen.model.knob import WAYS, steps_of
from matrixgen.model.layers import Cell
from matrixgen.model.plate import Plate
from matrixgen.model.text import Word
from matrixgen.model.wiring import Wiring
from matrixgen.source.names import Names
from matrixgen.source.reporter import Reporter

if TYPE_CHECKING:
    from matrixgen.source.syntax import Token

NOTHING = "nothing"


def knob_names(plate: Plate, wiring: Wiring) -> list[Word]:
    """Return the names of all knobs, those of the wiring first."""
    places = [one.name for one in plate.components if one.kind == "knob"]
    return [*(knob.name for knob in wiring.knobs), *places]


class Steps:
    """The knobs that a file names, on the plate or in its wiring, and their steps."""

    def __init__(self, reporter: Reporter, knobs: Iterable[Word]) -> None:
        self._reporter = reporter
        self.knobs: dict[str, Word] = {}
        for knob in knobs:
            self.knobs.setdefault(knob.text, knob)
        self._knob_of = {step: knob for knob in self.knobs for step in steps_of(knob)}

    def __contains__(self, name: str) -> bool:
        return name in self._knob_of

    def named(self, token: Token) -> Word | None:
        """Return a token as the name of a step; None where it is none."""
        return self._reporter.word(token) if token in self else None

    def cells(self, given: dict[str, Cell]) -> list[Cell]:
        """Return what each step does on the base layer, which gives it these cells."""
        return [given.get(step) or self._implied(step) for step in self._knob_of]

    def _implied(self, step: str) -> Cell:
        span = self.knobs[self._knob_of[step]].span
        return Cell(Word(step, span), Word(NOTHING, span), Nothing(), given=False)

    def help_for(self, name: str) -> str | None:
        """Return the help for a name that is no key, if it may well have to do with a knob."""
        knob, dot, way = name.partition(".")
        if name in self:
            return f"`{name}` is a step of a knob, which is no switch of the matrix"
        if knob in self.knobs:
            return f"`{knob}` is a knob: its steps are {_steps(knob)}"
        if not dot or way not in WAYS:
            return None
        similar = self._reporter.similar_help(knob, self.knobs)
        return similar or f"a step is that of a knob, as in `knob {knob} on PIN PIN`"

    def check(self, keys: Names) -> None:
        """Report the knobs that are called as a key is, or of which a step is."""
        for name, knob in self.knobs.items():
            if "." in name:
                self._report_dot(knob)
            for taken in (name, *steps_of(name)):
                first = keys.spelt(taken)
                if first is not None:
                    self._report_taken(knob, taken, first)
                    break

    def _report_dot(self, knob: Word) -> None:
        self._reporter.report(
            "dot-in-knob-name",
            knob.span,
            f"`{knob}` has a dot, and what follows that is a step of a knob",
            help=f"write the name without it: `{knob.text.replace('.', '-')}`",
        )

    def _report_taken(self, knob: Word, taken: str, key: Word) -> None:
        what = f"a step of the knob `{knob}`" if taken != knob.text else "a knob"
        self._reporter.report(
            "knob-named-as-key",
            knob.span,
            f"`{key}` is a key, and {what} is called the same",
            help="give the knob another name, in both blocks and in all layers",
            notes=[Note("the key is here", key.span)],
        )


def _steps(knob: str) -> str:
    left, right = steps_of(knob)
    return f"`{left}` and `{right}`"
