"""A colour for every wire: the file's own, or else a suggestion that no other wire has."""

from __future__ import annotations

from itertools import count

from matrixgen.model import Wiring
from matrixgen.model.prose import counted
from matrixgen.record import Record

COLOURS = (
    *("brown", "orange", "yellow", "green", "blue", "violet", "grey", "white"),
    *("pink", "gold", "turquoise", "silver", "red", "black"),
)
"""The colours of IEC 60757 in the order in which they are suggested.

Red and black come last: on a bench they also mean supply and ground (common practice, no source).
"""

NUMBERS = ("no", "one", "two", "three", "four", "five", "six")


class WireColour(Record):
    """A wire's colour and how many knots tell it from others of that colour.

    `from_file` is whether the file asked for it.
    """

    name: str
    knots: int
    from_file: bool

    @property
    def shown(self) -> str:
        """The colour as a person reads it: `blue`, or `blue, one knot`."""
        if not self.knots:
            return self.name
        number = NUMBERS[self.knots] if self.knots < len(NUMBERS) else str(self.knots)
        return f"{self.name}, {counted(self.knots, 'knot').replace(str(self.knots), number, 1)}"


def wire_colours(wiring: Wiring) -> dict[str, WireColour]:
    """Return the colour of each line, by the line's name: no suggestion is made twice.

    Suggestions go through the colours that the file itself does not use, rows first and then
    columns; when they are used up, through all of them again with one knot near the end of the
    wire, then with two.
    """
    taken = {line.colour.text for line in wiring.lines if line.colour}
    marks = ((colour, knots) for knots in count() for colour in COLOURS)
    spare = (mark for mark in marks if mark[1] or mark[0] not in taken)
    ordered = wiring.of_axis("row") + wiring.of_axis("column")
    return {
        line.name.text: WireColour(line.colour.text, 0, True)
        if line.colour
        else WireColour(*next(spare), False)
        for line in ordered
    }
