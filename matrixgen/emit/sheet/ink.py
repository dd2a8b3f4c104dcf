"""How each wire is drawn: its colour and, for whoever sees no colours, a dash of its own."""

from __future__ import annotations

from matrixgen.emit.wire_colours import WireColour, wire_colours
from matrixgen.model import AXES, Wiring
from matrixgen.record import Record

INKS = {
    "black": "#2b2b2b",
    "brown": "#8a5a2b",
    "red": "#d03a2f",
    "orange": "#ee8a1d",
    "yellow": "#eed21f",
    "green": "#2f9e44",
    "blue": "#2f6fd0",
    "violet": "#8e4ec6",
    "grey": "#8d9299",
    "white": "#f4f4f0",
    "pink": "#f29bb8",
    "gold": "#c9a227",
    "turquoise": "#2fc4c0",
    "silver": "#c3c9cf",
}
"""What the colours of IEC 60757 look like on a screen: chosen by eye."""

DASHES = (
    *("", "5 1", "2.4 1", "1 1", "6 1 1 1", "3 1 1 1", "6 1 1 1 1 1", "3 1 1 1 1 1", "5 2.2"),
    *("2.2 2.2", "8 1 2.5 1", "8 1 2.5 1 2.5 1", "4 1 4 2.6", "1 2", "6 1 1 1 1 1 1 1", "9 2.6"),
    *("2.5 1 1 1 1 1 1 1", "7 1.4 3 1.4", "10 1 1 1 1 1", "4 2.6 1 1", "12 2 4 2", "5 1 2 1 2 1"),
    *("1 1 1 2.6", "8 3 1 3", "12 1", "3 3 6 3", "10 2 2 2 2 2", "2 1 4 1 6 1", "1 1 4 1 1 1 8 1"),
    *("1.6 3", "7 3 7 1", "14 3"),
)
"""Strokes and gaps in millimetres: one for each of the 32 wires that an axis may have."""


class Ink(Record, kw_only=True):
    """A wire as it is drawn and labelled."""

    wire: str
    colour: WireColour
    css: str
    dash: str


def inks(wiring: Wiring) -> dict[str, Ink]:
    """Return how each line is drawn, by its name: no two of an axis have the same dash."""
    colours = wire_colours(wiring)
    return {
        line.name.text: Ink(
            wire=line.name.text,
            colour=colours[line.name.text],
            css=INKS[colours[line.name.text].name],
            dash=DASHES[place],
        )
        for axis in AXES
        for place, line in enumerate(wiring.of_axis(axis))
    }
