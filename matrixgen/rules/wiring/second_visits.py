"""What the two rules about a key on two wires of one kind have in common."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Axis, Diagnostic, Note, Problem, other_axis
from matrixgen.rules.context import Context


def second_visits(context: Context, problem: Problem, axis: Axis) -> Iterator[Diagnostic]:
    """Yield each visit to a key by a second wire of this axis, a third, and so on.

    A wire that is most likely one of the other axis is reported once, and not for each of its keys.
    """
    misnamed = context.misnamed_lines(axis)
    for line in misnamed:
        other = other_axis(axis)
        yield problem.at(
            line.name.span,
            f"each key of the {axis} `{line.name}` is on another {axis} and on no {other}",
            help=f"write `{other} {line.name}` if it is a {other}",
        )
    for name, all_visits in context.visits[axis].items():
        visits = [visit for visit in all_visits if visit.line not in misnamed]
        first = visits[0]
        for visit in visits[1:]:
            yield problem.at(
                visit.word.span,
                f"`{name}` is on `{visit.line.name}` and on `{first.line.name}`",
                help=f"remove `{name}` from the {axis} wire that is not soldered to it",
                notes=[Note(f"`{first.line.name}` visits it here", first.word.span)],
            )
