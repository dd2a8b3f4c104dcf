"""What stands on each keycap, in blocks of as many layers as a cap has room for. Millimetres.

A cap's lower edge is a key's field less 1.05 mm (a maker of keycaps' drawings, from an enthusiasts'
forum: likely); the room for letters on top of a usual cap is 11.5 by 12 mm, and longer by as much
as the key is (advice of the same).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.computer.setting import layout_of
from matrixgen.draw import Captions
from matrixgen.draw.caption_form import BELOW
from matrixgen.emit.sheet.caps import Cap, LayerCaps, caps_of
from matrixgen.emit.sheet.font import width_of
from matrixgen.model import Key, Keyboard
from matrixgen.model.geometry import Point
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

LESS_MM = 1.05
"""How much narrower a cap is than its key's field."""

ROOM_MM = 11.5, 12.0
"""Width and height of the room for letters on a cap of one unit."""

NARROW = 0.4
"""The part of a very short side that is for letters, of which nothing would be left (a choice)."""

BASE_MM, SMALL_MM, LEAST_MM = 5.0, 2.4, 1.4
"""How high letters are: of the base layer and of others, and at least where they are long."""

CORNERS = ((-1, 1, "start"), (1, 1, "end"), (1, -1, "end"), (-1, -1, "start"))
"""Where the layers after the base have their letters: below left, below right, then above."""

ENTRIES = 8
"""How many short forms are explained together: so many lines have room below others on paper."""

BESIDE = (1, 0, 3, 2)
"""Which corner is beside each: where both have no room, the right one is small and keeps inside."""

CORNER_WORDS = ("below left", "below right", "above right", "above left")


class LegendWords(Record):
    """Words on a cap: where their foot is, at which side they are, how high, and their line."""

    at: Point
    anchor: str
    size: float
    text: str


class Sticker(Record, kw_only=True):
    """A cap: its size, what stands on it, seen from its corner, and what stands `below` it.

    That is its key's name, unless the words in its middle are the name.
    """

    width: float
    height: float
    words: tuple[LegendWords, ...]
    below: str


class LegendBlock(Record):
    """The caps with the base layer and up to four others on them, and what they are called."""

    title: str
    stickers: tuple[Sticker, ...]


def blocks_of(keyboard: Keyboard, room: Point) -> list[LegendBlock]:
    """Return all layers in blocks: each shows the base layer and the next four, in plate order.

    From the second block on, keys to which its layers give nothing are left out. A cap that is
    larger than the room on the paper is cut, and its size stands below it. What short forms mean
    follows as blocks without caps.
    """
    captions = Captions(between=BELOW, layout=layout_of(keyboard))
    layers = [caps_of(keyboard, layer, captions) for layer in keyboard.layers]
    names = [layer.name.text for layer in keyboard.layers]
    base, *others = layers
    blocks = []
    for first in range(0, max(1, len(others)), len(CORNERS)):
        of_block = others[first : first + len(CORNERS)]
        keys = [key for key in keyboard.keys if not first or _is_given(key, of_block)]
        stickers = tuple(_sticker(key, [base, *of_block], room) for key in keys)
        title = _title(names[0], names[1 + first :][: len(CORNERS)])
        blocks.append(LegendBlock(f"{title}{_who(first, stickers)}.", stickers))
    return [*blocks, *_explained(layers)]


def _explained(layers: Sequence[LayerCaps]) -> Iterator[LegendBlock]:
    """Yield what short forms on the caps mean, as blocks without caps, of some entries each."""
    entries = list(dict.fromkeys(entry for layer in layers for entry in layer.legend))
    for first in range(0, len(entries), ENTRIES):
        said = (f"{short} is {meaning}" for short, meaning in entries[first : first + ENTRIES])
        yield LegendBlock(f"On the caps, {'; '.join(said)}.", ())


def _is_given(key: Key, layers: Sequence[LayerCaps]) -> bool:
    return any(layer.by_key[key.name.text].given for layer in layers)


def _title(base: str, others: Sequence[str]) -> str:
    """Return which layers a block shows, and where."""
    corners = (f"; {where}: {name}" for where, name in zip(CORNER_WORDS, others, strict=False))
    return f"In the middle: layer {base}{''.join(corners)}"


def _who(first: int, stickers: Sequence[Sticker]) -> str:
    if not first:
        return ""
    return ". Keys with one of these alone" if stickers else ". No key has one of these"


def _sticker(key: Key, layers: Sequence[LayerCaps], room: Point) -> Sticker:
    name = key.name.text
    caps = [layer.by_key[name] for layer in layers]
    whole = key.width * UNIT_MM - LESS_MM, key.height * UNIT_MM - LESS_MM
    size = min(whole[0], room[0]), min(whole[1], room[1])
    is_named = "".join(caps[0].lines).casefold() == name.casefold()
    below = "" if is_named else name
    if size != whole:
        below = f"{name} is really {whole[0]:.1f} by {whole[1]:.1f} mm"
    return Sticker(width=size[0], height=size[1], words=tuple(_words(size, caps)), below=below)


def _words(size: Point, caps: Sequence[Cap]) -> Iterator[LegendWords]:
    """Yield the base layer's words in the middle, and what other layers give in the corners."""
    wide, high = map(_room, size, ROOM_MM)
    yield from _lines(caps[0].lines, (size[0] / 2, size[1] / 2), wide)
    texts = [" ".join(cap.lines) if cap.given else "" for cap in caps[1:]]
    yield from _corners(texts, size, wide, high)


def _room(side: float, of_a_unit: float) -> float:
    """Return the room for letters along a cap's side; a cap much shorter than a unit has some."""
    return max(NARROW * side, side + of_a_unit - (UNIT_MM - LESS_MM))


def _corners(texts: Sequence[str], size: Point, wide: float, high: float) -> Iterator[LegendWords]:
    """Yield what stands in the corners of a room in the middle of a cap of some size."""
    sizes = [fitting(text, SMALL_MM, wide / 2) if text else 0.0 for text in texts]
    widths = list(map(width_of, texts, sizes))
    for number, text in enumerate(texts):
        if text:
            (right, down, anchor), letters = CORNERS[number], sizes[number]
            beside = slice(BESIDE[number], BESIDE[number] + 1)
            room = wide - sum(widths[beside])
            is_inside = right > 0 and widths[number] > room + 1e-6
            letters = LEAST_MM if is_inside else letters
            foot = size[1] / 2 + down * high / 2 + (letters * 0.75 if down < 0 else 0)
            foot -= down * 1.2 * sum(sizes[beside]) * is_inside
            yield LegendWords((size[0] / 2 + right * wide / 2, foot), anchor, letters, text)


def _lines(lines: Sequence[str], middle: Point, wide: float) -> Iterator[LegendWords]:
    size = min((fitting(line, BASE_MM / len(lines), wide) for line in lines), default=BASE_MM)
    for number, line in enumerate(lines):
        down = size * 0.35 + (number - (len(lines) - 1) / 2) * size * 1.15
        yield LegendWords((middle[0], middle[1] + down), "middle", size, line)


def fitting(text: str, most: float, wide: float) -> float:
    """Return how high letters may be for a text to be so wide at most."""
    return max(LEAST_MM, min(most, wide / width_of(text, 1)))
