"""How wide and how high words in a picture are at most, whichever of its fonts a browser has.

`picture.css` names Liberation Sans, which has the widths of Arial and Helvetica, and DejaVu Sans.
Here are the greater of their advance widths, bold or not, in hundredths of the letters' size,
rounded up to five: measured with FreeType in Debian's fonts-liberation and fonts-dejavu-core.
"""

from __future__ import annotations

from functools import cache
from unicodedata import normalize

_OF_WIDTH = {
    35: " \u00a0'ijl",
    40: ",./:;I\\|",
    45: "-f",
    50: "!()[]`rt",
    55: '"*',
    60: "J_csz",
    65: "?Lx",
    70: "$0123456789EFTaekovy",
    75: "CPSYZbdghnpqu{}",
    80: "ABKRVX",
    85: "#+<=>DGHNU^~",
    90: "&OQ",
    95: "w",
    100: "M",
    105: "%@m",
    115: "W",
}
_WIDTHS = {letter: width for width, letters in _OF_WIDTH.items() for letter in letters}

_WIDEST = 160
"""Of any other letter: the widest of Latin, Greek and Cyrillic are a little narrower."""

ASCENT, DESCENT = 0.95, 0.25
"""How far letters reach above and below the line that they are on, for their size: DejaVu's."""


@cache
def width_of(text: str, size: float) -> float:
    """Return how wide a text is at most, in the unit of the letters' size; accents take no room."""
    letters = (letter for letter in normalize("NFD", text) if not "\u0300" <= letter <= "\u036f")
    return sum(_WIDTHS.get(letter, _WIDEST) for letter in letters) * size / 100
