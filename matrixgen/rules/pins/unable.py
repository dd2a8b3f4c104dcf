"""What the two rules about a pin that cannot do what its line needs have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from matrixgen.boards.pin import Pin
from matrixgen.model import Diagnostic, Note, Problem
from matrixgen.rules.context import MountedContext


def unable_pins(
    context: MountedContext,
    problem: Problem,
    *,
    is_driven: bool,
    can: Callable[[Pin], bool],
    lacks: str,
    has: str,
) -> Iterator[Diagnostic]:
    """Yield each driven or sensed line on a usable pin that cannot; name a spare pin that can.

    `lacks` and `has` are what is said of the two pins.
    """
    able = next(filter(can, context.mounted.spare_pins), None)
    for wired in context.mounted.wired:
        line, pin = wired.line, wired.pin
        if context.is_driven(line) == is_driven and pin.is_usable and not can(pin):
            yield problem.at(
                wired.word.span,
                f"`{line.name}` is {'driven' if is_driven else 'sensed'}, "
                f"and `{pin.shown}` {lacks}",
                help=f"`{able.name}` is spare and {has}" if able else None,
                notes=[Note("`drive` stands here", context.keyboard.wiring.drive_span)],
            )
