"""`pointer 40 to 1000 steps a second within 800 ms`: how fast a pointer or a wheel goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.source.reporter import Reporter, every_token

if TYPE_CHECKING:
    from matrixgen.model.text import Number
    from matrixgen.source.syntax import Node

POINTER_STEPS, WHEEL_STEPS = (1, 5000), (1, 500)
WITHIN_MS = (1, 5000)
"""Whole steps a second, and milliseconds: five steps in each, at most."""


def speed_in(
    reporter: Reporter, statement: Node | None, bounds: tuple[int, int]
) -> tuple[Number, ...]:
    """Return the numbers of a speed: one, or two and a time; none where the file does not say it.

    Report those that are out of range, and a start above the most.
    """
    if statement is None:
        return ()
    said = tuple(map(reporter.number, every_token(statement)))
    are_fine = [reporter.is_whole_in(number, *bounds, "the speed") for number in said[:2]]
    are_fine += [reporter.is_whole_in(number, *WITHIN_MS, "the time in ms") for number in said[2:]]
    if all(are_fine) and len(said) > 1 and said[0].value > said[1].value:
        slow, fast = said[1].value, said[0].value
        reporter.report(
            "speed-that-falls",
            said[0].span,
            f"the speed begins at {fast:g} steps a second and ends at {slow:g}",
            help=f"write the slower one first: `{slow:g} to {fast:g} steps a second`",
        )
    return said
