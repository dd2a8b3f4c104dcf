"""A keyboard mounted on one controller: what pin rules look at, and what a build is made from."""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards.diode_part import DiodePart
from matrixgen.boards.pin import Pin
from matrixgen.boards.profile import Profile
from matrixgen.model.component import Component
from matrixgen.model.design import Mounting
from matrixgen.model.keyboard import Keyboard
from matrixgen.model.light import Light
from matrixgen.model.text import Word
from matrixgen.model.wiring import Line
from matrixgen.record import Record, changed


class Wired(Record):
    """A line that ends on a pin of the controller: the line, the word for the pin, the pin."""

    line: Line
    word: Word
    pin: Pin


class PinUse(Record):
    """A pin of the controller that something ends on: a wire, or a leg of a light or a knob.

    `called` says what, in backticks where it is a name; `word` is what the file calls the pin.
    """

    called: str
    end: Line | Component
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

    def words_of(self, component: Component) -> tuple[Word, ...]:
        """Return the words for a component's pins, be there such pins or not."""
        return self.mounting.component_pins.get(component.called, ())

    def pins_of(self, component: Component) -> tuple[Pin, ...]:
        """Return the pins of a component; none where the controller lacks one of them."""
        found = [self.profile.pin(word.text) for word in self.words_of(component)]
        pins = tuple(pin for pin in found if pin)
        return pins if len(pins) == len(found) else ()

    @cached_property
    def words(self) -> tuple[tuple[str, Line | Component, Word], ...]:
        """Every word for a pin, be there such a pin or not, and what is on it: see `PinUse`."""
        lines = [
            (f"`{line.name}`", line, word)
            for line in self.keyboard.wiring.lines
            if (word := self.word_of(line))
        ]
        components = [
            (f"the {one.kind} `{one.name}`", one, word)
            for one in self.keyboard.wiring.components
            for word in self.words_of(one)
        ]
        return (*lines, *components)

    @cached_property
    def uses(self) -> tuple[PinUse, ...]:
        """Every use of a pin of this controller: wires in file order, then lights and knobs."""
        ends = ((*said, self.profile.pin(said[2].text)) for said in self.words)
        return tuple(PinUse(called, end, word, pin) for called, end, word, pin in ends if pin)

    @property
    def component_pins(self) -> frozenset[str]:
        """The names of the pins that lights and knobs are on."""
        return frozenset(use.pin.name for use in self.uses if isinstance(use.end, Component))

    @property
    def light_pins(self) -> frozenset[str]:
        """The names of the pins that lights are on."""
        return frozenset(use.pin.name for use in self.uses if isinstance(use.end, Light))

    @cached_property
    def spare_pins(self) -> tuple[Pin, ...]:
        """The usable pins that nothing ends on, those with nothing to think of first."""
        taken = {use.pin.name for use in self.uses}
        return tuple(pin for pin in self.profile.usable_pins if pin.name not in taken)

    @cached_property
    def at_supplies(self) -> tuple[Mounted, ...]:
        """The same at the least supply, at the usual one, and at the most."""
        return tuple(changed(self, profile=one) for one in self.profile.at_supplies)
