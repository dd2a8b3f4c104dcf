"""A light: an LED with its resistor, on a pin of its own, and what it shows."""

from __future__ import annotations

from typing import ClassVar, Literal

from matrixgen.model.component import Component, ComponentKind
from matrixgen.model.text import Word
from matrixgen.model.work import AnyOrder, Reflash, Solder
from matrixgen.record import Record

LOCKS: tuple[str, ...] = ("NumLock", "CapsLock", "ScrollLock", "Compose", "Kana")
"""Lights that a computer turns on and off, in the order of their bits in the output report.

HID Usage Tables, LED page (0x08): usages 01 to 05; bits 0 to 4 of HID 1.11 appendix B.1.
"""

LightSide = Literal["ground", "supply"]
"""Where the LED's other leg goes: to ground, and the pin is high when it is lit, or to supply."""

USUAL_SIDE: LightSide = "ground"
"""Where the file says nothing: until the firmware runs, pins of an RP2040 are pulled low (RP2040
datasheet, section 2.19.6.3), so that an LED to supply would glow; a pin of an AVR floats."""


class LightColour(Record):
    """An LED by its colour: its forward voltage at 2 mA, at the least, usual, and at the most."""

    least: float
    usual: float
    most: float


LIGHT_COLOURS: dict[str, LightColour] = {
    "red": LightColour(1.5, 1.8, 2.0),
    "orange": LightColour(1.5, 1.8, 2.2),
    "yellow": LightColour(1.5, 1.9, 2.5),
    "green": LightColour(1.5, 1.8, 3.0),
    "blue": LightColour(2.5, 2.8, 3.2),
    "white": LightColour(2.5, 2.8, 3.2),
}
"""Usual and most of red and yellow: an LED maker's sheet of low-current kinds. Least: that of a
bright yellow one (AlGaInP, datasheet), for all but the last two. Green is 2.2 V at most where it is
GaP, and as blue where it is InGaN. Blue and white: 2.6 to 3.0 V on secondary pages, with a little
on both sides. Orange is from memory."""

USUAL_COLOUR = "red"
USUAL_MILLIAMPERES = 2.0
"""Low-current and bright LEDs are specified at 2 mA: an indicator needs no more."""

SPREAD_VOLTS = 0.2
"""How far an LED's forward voltage may be off one that the file says: the spread of red ones."""


class Light(Component, kw_only=True):
    """A light as it is wired.

    `lock` is the one of `LOCKS` that it shows, or `layers` are those that have to be on, all of
    them, for it to be lit; one of the two is empty. `forward` is its forward voltage, at the least
    and at the most, and `milliamperes` the current that it is to have at the most.
    """

    kind: ClassVar[ComponentKind] = "light"
    in_image: ClassVar[tuple[str, ...]] = ("side",)

    lock: Reflash[str | None]
    layers: Reflash[AnyOrder[Word]]
    side: Solder[LightSide]
    colour: Solder[str]
    forward: Solder[tuple[float, float]]
    milliamperes: Solder[float]
