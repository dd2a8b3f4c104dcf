"""One file, several controllers: a keyboard for each."""

from __future__ import annotations

from matrixgen.model.keyboard import Keyboard, Line
from matrixgen.model.record import changed


def variants(keyboard: Keyboard) -> tuple[Keyboard, ...]:
    """Return a keyboard for each controller of the file, in its order.

    Each has that controller alone, and each line the pin that it ends on there, so that whoever
    gets one need not know that there are others.
    """
    if len(keyboard.controllers) < 2:
        return (keyboard,)
    return tuple(_variant(keyboard, place) for place in range(len(keyboard.controllers)))


def _variant(keyboard: Keyboard, place: int) -> Keyboard:
    controller = keyboard.controllers[place]
    lines = tuple(_line(line, place) for line in keyboard.wiring.lines)
    return changed(
        keyboard,
        controller=controller,
        controllers=(controller,),
        wiring=changed(keyboard.wiring, lines=lines),
    )


def _line(line: Line, place: int) -> Line:
    """Return a line with its pin on one controller; a line without pins has none anywhere."""
    if not line.pins:
        return line
    return changed(line, pin=line.pins[place], pins=(line.pins[place],))
