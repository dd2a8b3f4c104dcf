"""Legends for keycaps at their true size: to print as stickers, or to tape onto caps without any.

A cap's lower edge is a key's field less 1.05 mm (a maker of keycaps' drawings, from an enthusiasts'
forum: likely); the room for letters on top of a usual cap is 11.5 by 12 mm, and longer by as much
as the key is (advice of the same).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.draw import Captions
from matrixgen.draw.caps import BELOW
from matrixgen.emit.sheet.caps import Cap, caps_of
from matrixgen.emit.sheet.font import width_of
from matrixgen.emit.sheet.frame import PAPER_MM
from matrixgen.emit.sheet.pictures import markup
from matrixgen.model import Key, Keyboard
from matrixgen.model.geometry import Point
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

LESS_MM = 1.05
"""How much narrower a cap is than its key's field."""

ROOM_MM = 11.5, 12.0
"""Width and height of the room for letters on a cap of one unit."""

AROUND_MM, GAP_MM = 5.0, 1.0
"""The room round all caps, and that between two of them."""

BASE_MM, SMALL_MM, LEAST_MM = 5.0, 2.4, 1.4
"""How high letters are: of the base layer and of others, and at least where they are long."""


class LegendWords(Record):
    """Words on a cap: where their foot is, at which side they are, how high, and their line."""

    at: Point
    anchor: str
    size: float
    text: str


class CapLegend(Record):
    """A cap: its corner, its size, and what stands on it."""

    at: Point
    width: float
    height: float
    words: tuple[LegendWords, ...]


CORNERS = ((-1, 1, "start"), (1, 1, "end"), (1, -1, "end"), (-1, -1, "start"))
"""Where the second layer to the fifth have their letters: below left, below right, then above."""

MOST_LAYERS = len(CORNERS) + 1


def legends_svg(keyboard: Keyboard) -> bytes:
    """Return the sheet of all caps, in the order of the plate."""
    caps = list(_placed(keyboard))
    height = max((one.at[1] + one.height for one in caps), default=0.0)
    text = (
        markup()
        .get_template("plate/legends.svg.j2")
        .render(
            caps=caps,
            width=PAPER_MM + 2 * AROUND_MM,
            height=height + 2 * AROUND_MM,
            around=AROUND_MM,
            layers=[layer.name.text for layer in keyboard.layers][:MOST_LAYERS],
            unshown=max(0, len(keyboard.layers) - MOST_LAYERS),
        )
    )
    return text.encode("utf-8")


def _placed(keyboard: Keyboard) -> Iterator[CapLegend]:
    """Yield the caps side by side, line below line."""
    captions = Captions(between=BELOW)
    layers = [caps_of(keyboard, layer, captions).by_key for layer in keyboard.layers]
    x = y = high = 0.0
    for key in keyboard.keys:
        width, height = key.width * UNIT_MM - LESS_MM, key.height * UNIT_MM - LESS_MM
        if x and x + width > PAPER_MM:
            x, y, high = 0.0, y + high + GAP_MM, 0.0
        caps = [caps[key.name.text] for caps in layers]
        yield CapLegend((x, y), width, height, tuple(_words(key, (x, y), caps)))
        x, high = x + width + GAP_MM, max(high, height)


def _words(key: Key, corner: Point, caps: Sequence[Cap]) -> Iterator[LegendWords]:
    """Yield the base layer's words in the middle, and what other layers give in the corners."""
    middle = (
        corner[0] + (key.width * UNIT_MM - LESS_MM) / 2,
        corner[1] + (key.height * UNIT_MM - LESS_MM) / 2,
    )
    wide = ROOM_MM[0] + (key.width - 1) * UNIT_MM
    high = ROOM_MM[1] + (key.height - 1) * UNIT_MM
    yield from _lines(caps[0].lines, middle, wide)
    for cap, (right, down, anchor) in zip(caps[1:], CORNERS, strict=False):
        text = " ".join(cap.lines)
        if cap.given and text:
            size = _size(text, SMALL_MM, wide / 2)
            foot = middle[1] + down * high / 2 + (size * 0.75 if down < 0 else 0)
            yield LegendWords((middle[0] + right * wide / 2, foot), anchor, size, text)


def _lines(lines: Sequence[str], middle: Point, wide: float) -> Iterator[LegendWords]:
    size = min((_size(line, BASE_MM / len(lines), wide) for line in lines), default=BASE_MM)
    for number, line in enumerate(lines):
        down = size * 0.35 + (number - (len(lines) - 1) / 2) * size * 1.15
        yield LegendWords((middle[0], middle[1] + down), "middle", size, line)


def _size(text: str, most: float, wide: float) -> float:
    """Return how high letters may be for a text to be so wide at most."""
    return max(LEAST_MM, min(most, wide / width_of(text, 1)))
