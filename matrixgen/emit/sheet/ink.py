"""How each wire is drawn: its colour and, for whoever sees no colours, a dash of its own."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, product

from matrixgen.emit.wire_colours import WireColour, wire_colours
from matrixgen.model import AXES, Wiring
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS

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

LONG, MIDDLE, SHORT = 5.0, 2.2, 0.8
GAP, LAST_GAP = 0.8, 2.2
"""Strokes, the gap between two of a group and the gap between two groups, in millimetres."""


MOST_STROKES = 4


def _dashes() -> Iterator[str]:
    """Yield a dash for each wire of the largest matrix, the plainest first.

    The first is unbroken. The others are groups of strokes, long, middle or short, with a wide gap
    between two groups: wherever one looks, one sees where a group begins. Of two groups that are
    each other's mirror image only one is taken, since a wire may be looked at from either end.
    """
    yield ""
    groups = (
        group
        for count in range(1, MOST_STROKES + 1)
        for group in product((LONG, MIDDLE, SHORT), repeat=count)
        if group >= group[::-1]
    )
    for group in sorted(groups, key=lambda one: (len(one), len(set(one)), sum(one))):
        gaps = (GAP,) * (len(group) - 1) + (LAST_GAP,)
        yield " ".join(f"{stroke:g} {gap:g}" for stroke, gap in zip(group, gaps, strict=True))


DASHES = tuple(islice(_dashes(), len(AXES) * LIMITS.lines_per_axis))
"""Strokes and gaps in millimetres: one for each of the wires that a matrix may have."""


class Ink(Record, kw_only=True):
    """A wire as it is drawn and labelled. `number` tells it from all others on a page."""

    number: int
    wire: str
    colour: WireColour
    css: str
    dash: str


def inks(wiring: Wiring) -> dict[str, Ink]:
    """Return how each line is drawn, by its name: rows first, no two with the same dash."""
    colours = wire_colours(wiring)
    return {
        line.name.text: Ink(
            number=place,
            wire=line.name.text,
            colour=colours[line.name.text],
            css=INKS[colours[line.name.text].name],
            dash=DASHES[place],
        )
        for place, line in enumerate(line for axis in AXES for line in wiring.of_axis(axis))
    }
