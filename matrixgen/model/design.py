"""A whole file, understood: a keyboard, and the controllers that it may be mounted on."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.model.keyboard import Keyboard
from matrixgen.model.text import SourceText, Span, Word
from matrixgen.model.work import AnyOrder, Cosmetic, Solder, Spelling
from matrixgen.record import Record


class Allowance(Record):
    """A warning that the file does not want to hear: everywhere, or of some names alone.

    `slug` is the name that the warning has now, and `written` the one in the file, which may be an
    old one. `places` has the names of the keys, pins, wires or layers; empty means everywhere.
    `span` is the whole statement.
    """

    slug: Cosmetic[Word]
    written: Spelling[str]
    places: Cosmetic[AnyOrder[Word]]
    span: Span


NO_PINS: Mapping[str, tuple[Word, ...]] = {}
"""Those of a keyboard without lights and knobs."""


class Mounting(Record):
    """One controller that the keyboard may be mounted on, and the pin that each line ends on.

    `pins` is by the lines' names; a line that is on no pin yet is not in it. `component_pins` has
    those of lights and knobs, in their order, by `Component.called`.
    """

    controller: Word
    pins: Mapping[str, Word]
    component_pins: Mapping[str, tuple[Word, ...]] = NO_PINS


class Design(Record, kw_only=True):
    """One file. Its controllers are alternatives: the whole keyboard on one of them.

    `pins` has, by the name of the line, the pins that it is on, one for each of `controllers`; in
    a file that names no controller yet, whatever pins it has. `component_pins` has the same for
    lights and knobs, by `Component.called`, each with all its pins. `head` is where the file's
    first word stands, for what is said of the file as a whole.
    """

    keyboard: Keyboard
    controllers: Solder[tuple[Word, ...]]
    pins: Solder[Mapping[str, tuple[Word, ...]]]
    component_pins: Solder[Mapping[str, tuple[tuple[Word, ...], ...]]]
    allowances: Cosmetic[AnyOrder[Allowance]]
    source: Spelling[SourceText]
    head: Span

    @property
    def mountings(self) -> tuple[Mounting, ...]:
        """The keyboard's place on each controller, in the file's order."""
        return tuple(
            Mounting(
                controller,
                {line: pins[place] for line, pins in self.pins.items() if place < len(pins)},
                {one: p[place] for one, p in self.component_pins.items() if place < len(p)},
            )
            for place, controller in enumerate(self.controllers)
        )
