"""A knob of the block `wiring`: name and states; its pins are read as those of all components."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.knob import STATES, USUAL_STATES, Knob
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


def knob_of(reporter: Reporter, statement: Node) -> Knob:
    """Return a knob as it is wired."""
    name = reporter.word(tokens(statement)[0])
    states = next((_states(reporter, part) for part in trees(statement)), USUAL_STATES)
    return Knob(name=name, span=reporter.whole(statement), states=states)


def _states(reporter: Reporter, part: Node) -> int:
    """Return how many states a step has; report a number of which there is no such knob."""
    number = tokens(part, "NUMBER")[0]
    if float(number) in STATES:
        return int(float(number))
    reporter.report(
        "number-out-of-range",
        reporter.span(number),
        f"a step of a knob has 2, 4 or 8 states, not {number}",
        help="the datasheet says how many detents and pulses a turn has; a pulse is four states",
    )
    return USUAL_STATES
