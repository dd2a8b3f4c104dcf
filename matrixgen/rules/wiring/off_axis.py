"""What the two rules about a key on no wire of one kind have in common."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Axis, Diagnostic, Problem, other_axis
from matrixgen.rules.context import Context


def keys_off(context: Context, problem: Problem, axis: Axis) -> Iterator[Diagnostic]:
    """Yield each key that is on no wire of this axis.

    A key on no wire at all is reported once, as one on no row. Where there is no wire of the axis,
    and where a wire is most likely of the other axis, another finding says so.
    """
    other = other_axis(axis)
    here, there = context.visits[axis], context.visits[other]
    misnamed = {word.text for line in context.misnamed_lines(other) for word in line.visits}
    for key in context.keyboard.keys if here else ():
        name = key.name.text
        on_neither = bool(there) and name not in there
        if name in here or name in misnamed or (on_neither and axis == "column"):
            continue
        yield problem.at(
            key.name.span,
            f"`{name}` is on no {axis}" + (f" and no {other}" if on_neither else ""),
            help=f"add `{name}` to the wires that are soldered to it"
            if on_neither
            else f"add `{name}` to the {axis} wire that is soldered to it",
        )
