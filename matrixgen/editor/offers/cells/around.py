"""What the layers of a file give each key, as far as it is written, and where the cursor is."""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from functools import cached_property

from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.cells.sent import FileSpelling, sent_by
from matrixgen.editor.place import words_of_line
from matrixgen.model.layers import BASE
from matrixgen.model.plate import stem_of
from matrixgen.source.letters import name_of_key
from matrixgen.source.statements import BLOCKS, STATEMENTS
from matrixgen.usages import is_word

HERE = "\0"
"""Stands for the word that is being written."""

NOT_CELLS = frozenset(one.keyword for one in STATEMENTS.values() if one.block == "layer")

Votes = Iterator[tuple[str, float]]
"""What a cell may send, each with what speaks for it."""

Phrase = tuple[str, ...]
At = tuple[int, int]


class CellsAround:
    """The cells of a file without the one at the cursor, and the key which that one is for."""

    def __init__(self, asked: Cursor) -> None:
        self.asked = asked
        self.lines = asked.rest_of_file.plate_lines
        self.at: dict[str, At] = {
            key: (row, place)
            for row, line in enumerate(self.lines)
            for place, key in enumerate(line)
        }
        self.layers: dict[str, dict[str, Phrase]] = {}
        self.key, self.layer, self.order = "", "", list[str]()
        self._actions = asked.rest_of_file.names("ACTION_NAME")
        for header, rows in _blocks(asked):
            if header[:1] == ["layer"] and len(header) > 1:
                self._take(header[1], rows)

    def _take(self, name: str, rows: list[Phrase]) -> None:
        """Note the cells of a layer."""
        cells = self.layers.setdefault(name, {})
        pictured = 0
        for row in rows:
            self.layer = name if HERE in row else self.layer
            if row[0] in NOT_CELLS:
                continue
            if "=" in row:
                found = list(_entries(row))
            else:
                line = self.lines[pictured] if pictured < len(self.lines) else ()
                found = [(key, (cell,)) for key, cell in zip(line, row, strict=False)]
                pictured += 1
            self._note(cells, found)

    def _note(self, cells: dict[str, Phrase], row: list[tuple[str, Phrase]]) -> None:
        for key, phrase in row:
            if HERE in (*phrase, key):
                self.key, self.order = key, [other for other, _ in row]
            if HERE not in phrase:
                cells[key] = phrase

    def with_key(self, key: str) -> CellsAround:
        """Return the same with the cursor at the cell of a key."""
        other = copy(self)
        other.key, other.order = key, [key if one == HERE else one for one in self.order]
        return other

    @cached_property
    def cells(self) -> dict[str, str]:
        """What each other key of this layer sends, of those that have one word."""
        mine = self.layers.get(self.layer, {})
        return {
            key: self.sent(one[0]) for key, one in mine.items() if len(one) == 1 and key != HERE
        }

    def sent(self, word: str) -> str:
        """Return what a cell's word sends, or the name of an action as it is."""
        return word if word in self._actions else sent_by(word)

    @property
    def is_base(self) -> bool:
        """Whether the cell is one of the base layer."""
        return self.layer == BASE

    @property
    def stem(self) -> str:
        """The name of the key without its tag."""
        return stem_of(self.key)

    @property
    def own(self) -> str:
        """What the name of the key says that it sends; nothing if it is a word of the maker's."""
        return sent_by(self.stem) if is_word(self.stem) else ""

    def beside(self, rows: int, places: int) -> str:
        """Return what a key so many rows and places away sends, or nothing."""
        row, place = self.at.get(self.key, (-9, -9))
        row, place = row + rows, place + places
        is_there = 0 <= row < len(self.lines) and 0 <= place < len(self.lines[row])
        return self.cells.get(self.lines[row][place], "") if is_there else ""

    def listed(self, places: int) -> str:
        """Return what a key so many places away in the same statement sends, or nothing."""
        place = self.order.index(self.key) + places if self.key in self.order else -1
        return self.cells.get(self.order[place], "") if 0 <= place < len(self.order) else ""

    @cached_property
    def given(self) -> set[str]:
        """All that cells of any layer send, and what keys send by their names."""
        every = {word for layer in self.layers.values() for one in layer.values() for word in one}
        base = self.layers.get(BASE, {})
        plain = {stem_of(key) for key in self.at if key not in base}
        return {self.sent(word) for word in every | plain}

    @cached_property
    def spelling(self) -> FileSpelling:
        """How the file spells keys: its cells count more than the plate."""
        words = self.asked.rest_of_file
        here = (*self.asked.words_before, *self.asked.words_after)
        cells = [one.text for one in words.of("CELL")]
        return FileSpelling((*cells, *cells, *here, *words.keys))


def _blocks(asked: Cursor) -> Iterator[tuple[list[str], list[Phrase]]]:
    """Yield the words of each block's first line, and those of its statements."""
    header: list[str] = []
    rows: list[Phrase] = []
    for words, is_header in _statements(asked):
        if is_header:
            yield header, rows
            header, rows = list(words), []
        elif words:
            rows.append(words)
    yield header, rows


def _statements(asked: Cursor) -> Iterator[tuple[Phrase, bool]]:
    for number in range(1, len(asked.source.lines) + 1):
        line = asked.source.line(number)
        words = line.split()
        if number == asked.first_line:
            yield (*asked.words_before, HERE, *asked.words_after), asked.is_header
        elif not asked.first_line < number <= asked.last_line:
            is_header = line[:1] not in ("", " ", "\t", "#") and words[0] in BLOCKS
            yield tuple(words_of_line(line)), is_header


def _entries(words: Phrase) -> Iterator[tuple[str, Phrase]]:
    """Yield each key of a list with its phrase."""
    starts = [place - 1 for place, word in enumerate(words) if word == "=" and place]
    for start, end in zip(starts, [*starts[1:], len(words)], strict=True):
        yield name_of_key(words[start]), words[start + 2 : end]
