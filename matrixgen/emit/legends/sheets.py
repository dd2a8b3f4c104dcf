"""Where each cap lies on paper: in rows, in the order of the plate, block below block.

Millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import inf

from matrixgen.emit.legends.stickers import LegendBlock, LegendWords, Sticker, blocks_of
from matrixgen.emit.sheet.font import width_of
from matrixgen.emit.sheet.frame import PAPER_MM
from matrixgen.model import Keyboard
from matrixgen.model.geometry import Point
from matrixgen.record import Record

GAP_MM, NAME_MM = 1.0, 1.8
"""The room between two caps, and how high a key's name below its cap is."""

TITLE_MM, HEAD_MM, MOST_ABOVE_MM = 3.0, 9.0, 40.0
"""How high a block's title is, the room for what stands at the head of a sheet of paper, and the
room for both and for a name below a cap."""


class LegendPaper(Record, kw_only=True):
    """A sheet of paper without its margins: its name in CSS, and the room on it."""

    name: str
    width: float
    height: float

    @property
    def for_a_cap(self) -> Point:
        """How large a cap may be, below the head and a title of a few lines."""
        return self.width, self.height - MOST_ABOVE_MM


MARGIN_MM = 10.0
"""The margin of paper: printers leave 4 to 6 mm white (common practice, no source)."""

PAPERS: Mapping[str, LegendPaper] = {
    name: LegendPaper(name=name, width=width - 2 * MARGIN_MM, height=height - 2 * MARGIN_MM - 1)
    for name, width, height in (("A4", 210.0, 297.0), ("Letter", 215.9, 279.4))
}
"""Standing, by the name on the command line: ISO 216, ANSI/ASME Y14.1. A millimetre of height is
spare: a browser that rounds up would begin another page."""

ENDLESS = LegendPaper(name="", width=PAPER_MM, height=inf)
"""What a single drawing is on."""


class PlacedSticker(Record):
    """A cap, and where its corner is."""

    at: Point
    sticker: Sticker


class LegendSheet(Record, kw_only=True):
    """A sheet: its size, its caps, and other words on it; the head is left free above."""

    width: float
    height: float
    stickers: tuple[PlacedSticker, ...]
    words: tuple[LegendWords, ...]


def sheets_of(keyboard: Keyboard, paper: LegendPaper = ENDLESS) -> list[LegendSheet]:
    """Return the sheets of paper that all caps take, or the one that is as long as they are."""
    packing = _Packing(paper)
    for block in blocks_of(keyboard, paper.for_a_cap):
        packing.add(block)
    return packing.done()


class _Packing:
    """Puts one row below the other, and begins another sheet where there is no room for one."""

    def __init__(self, paper: LegendPaper) -> None:
        self._paper = paper
        self._sheets: list[LegendSheet] = []
        self._begin()

    def _begin(self) -> None:
        self._stickers: list[PlacedSticker] = []
        self._words: list[LegendWords] = []
        self._y = 0.0 if self._paper is ENDLESS else HEAD_MM

    def add(self, block: LegendBlock) -> None:
        """Put a block below what is there; on each sheet that it comes to, its title is first."""
        title = list(_wrapped(block.title, TITLE_MM, self._paper.width))
        has_title = False
        for row in _rows(block.stickers, self._paper.width) or [[]]:
            high = _height(row) + (0.0 if has_title else _title_height(title))
            if self._y + high > self._paper.height and self._stickers:
                self._end()
                has_title = False
            if not has_title:
                self._put_title(title)
            self._put(row)
            has_title = True
        self._y += TITLE_MM

    def _put_title(self, title: Sequence[str]) -> None:
        for number, line in enumerate(title):
            foot = self._y + TITLE_MM + number * TITLE_MM * 1.4
            self._words.append(LegendWords((0.0, foot), "start", TITLE_MM, line))
        self._y += _title_height(title)

    def _put(self, row: Sequence[Sticker]) -> None:
        x = 0.0
        for one in row:
            self._stickers.append(PlacedSticker((x, self._y), one))
            if one.below:
                size = min(NAME_MM, one.width / width_of(one.below, 1))
                foot = self._y + one.height + size
                self._words.append(LegendWords((x, foot), "start", size, one.below))
            x += one.width + GAP_MM
        self._y += _height(row)

    def _end(self) -> None:
        high = self._y if self._paper is ENDLESS else self._paper.height
        stickers, words = tuple(self._stickers), tuple(self._words)
        sheet = LegendSheet(width=self._paper.width, height=high, stickers=stickers, words=words)
        self._sheets.append(sheet)
        self._begin()

    def done(self) -> list[LegendSheet]:
        """Return all sheets."""
        self._end()
        return self._sheets


def _rows(stickers: Iterable[Sticker], wide: float) -> list[list[Sticker]]:
    """Return the caps in rows that are no wider than the paper."""
    rows: list[list[Sticker]] = []
    x = inf
    for one in stickers:
        if x + one.width > wide:
            rows.append([])
            x = 0.0
        rows[-1].append(one)
        x += one.width + GAP_MM
    return rows


def _height(row: Sequence[Sticker]) -> float:
    """Return the room for a row, the names below it and the gap to the next one."""
    names = NAME_MM * 1.3 if any(one.below for one in row) else 0.0
    return max((one.height for one in row), default=0.0) + names + GAP_MM


def _title_height(title: Sequence[str]) -> float:
    return (len(title) + 0.4) * TITLE_MM * 1.4


def _wrapped(text: str, size: float, wide: float) -> Iterator[str]:
    """Yield a text in lines that are no wider than the paper; words that are wider are divided."""
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, size) > wide:
            yield line
            longer = word
        while width_of(longer, size) > wide:
            most = next(n for n in range(len(longer), 0, -1) if width_of(longer[:n], size) <= wide)
            yield longer[:most]
            longer = longer[most:]
        line = longer
    yield line
