"""A keyboard mounted on one controller: what pin rules look at, and what a build is made from."""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards.diode_part import DiodePart
from matrixgen.boards.profile import Pin, Profile
from matrixgen.model.design import Mounting
from matrixgen.model.keyboard import Keyboard
from matrixgen.model.text import Word
from matrixgen.model.wiring import Line
from matrixgen.record import Record, changed


class Wired(Record):
    """A line that ends on a pin of the controller: the line, the word for the pin, the pin."""

    line: Line
    word: Word
    pin: Pin


class Mounted(Record):
    """A keyboard on one of the controllers that its file names, and what is known of that one.

    `diode` is what is known of its diodes: None where they are of a kind that is not known.
    """

    keyboard: Keyboard
    mounting: Mounting
    profile: Profile
    diode: DiodePart | None = None

    @property
    def controller(self) -> Word:
        """The controller, where the file names it."""
        return self.mounting.controller

    def word_of(self, line: Line) -> Word | None:
        """Return the word for a line's pin, be there such a pin or not; None if there is none."""
        return self.mounting.pins.get(line.name.text)

    def pin_of(self, line: Line) -> Pin | None:
        """Return the pin that a line ends on; None where it has none that the controller has."""
        word = self.word_of(line)
        return self.profile.pin(word.text) if word else None

    @cached_property
    def wired(self) -> tuple[Wired, ...]:
        """The lines that end on a pin of this controller, in file order."""
        lines = self.keyboard.wiring.lines
        ends = ((line, self.word_of(line), self.pin_of(line)) for line in lines)
        return tuple(Wired(line, word, pin) for line, word, pin in ends if word and pin)

    @cached_property
    def spare_pins(self) -> tuple[Pin, ...]:
        """The usable pins that no line ends on, those with nothing to think of first."""
        taken = {wired.pin.name for wired in self.wired}
        return tuple(pin for pin in self.profile.usable_pins if pin.name not in taken)

    @cached_property
    def at_supplies(self) -> tuple[Mounted, ...]:
        """The same at the least supply, at the usual one, and at the most."""
        return tuple(changed(self, profile=one) for one in self.profile.at_supplies)
