"""A colour for every wire: the file's own, or else the digit colour of the line's number."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.model import Axis, Line, Wiring

DIGIT_COLOURS = (
    "black",
    "brown",
    "red",
    "orange",
    "yellow",
    "green",
    "blue",
    "violet",
    "grey",
    "white",
)
"""The colours of the digits 0 to 9 (IEC 60062, the marking of resistors)."""


@dataclass(frozen=True, slots=True)
class WireColour:
    """A colour's name, and whether the file asked for it."""

    name: str
    from_file: bool


def wire_colours(wiring: Wiring) -> dict[str, WireColour]:
    """Return the colour of each line, by the line's name.

    Rows and columns are counted apart, each from 0. From the tenth line on the colour is that of
    the number's last digit, so colours repeat: ten are as many as people tell apart.
    """
    axes: tuple[Axis, Axis] = ("row", "column")
    return {
        line.name.text: _colour(line, place)
        for axis in axes
        for place, line in enumerate(wiring.of_axis(axis))
    }


def _colour(line: Line, place: int) -> WireColour:
    if line.colour is not None:
        return WireColour(line.colour.text, True)
    return WireColour(DIGIT_COLOURS[place % len(DIGIT_COLOURS)], False)
