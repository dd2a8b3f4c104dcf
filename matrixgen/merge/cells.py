"""A layer in three versions, merged cell by cell, whichever line of a list or picture has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from matrixgen.merge.parts import joined
from matrixgen.merge.statement import carried
from matrixgen.merge.three_way import Id
from matrixgen.record import Record, changed
from matrixgen.source.blocks.pictures import SEE_THROUGH
from matrixgen.source.tree import Part, Piece, Statement

Words = tuple[str, ...]
KeyNames = tuple[str, ...]
BLANK = Piece("gap", " ")
LINE_END = Piece("line end", "\n")
TOGETHER = "together"
"""The rule of statements in a layer that are about several keys at once."""

APART = (Piece("gap", "  "),)
"""What stands between two cells."""


class LayerLines(Record):
    """The lines of a layer, and the keys that each of them is about, one for each part.

    `beside` has the lines for steps of knobs that stand beside a picture.
    """

    statements: tuple[Statement, ...]
    keys: tuple[KeyNames, ...]
    is_picture: bool
    beside: LayerLines | None = None

    @property
    def all_keys(self) -> tuple[str, ...]:
        """Every key that it is about, and every step."""
        own = tuple(key for line in self.keys for key in line)
        return own + (self.beside.all_keys if self.beside else ())

    @property
    def as_list(self) -> LayerLines | None:
        """The lines of a list: all of them, or those beside a picture."""
        return self.beside if self.is_picture else self


def frame_of(statements: Sequence[Statement], plate: Sequence[KeyNames]) -> LayerLines:
    """Return a layer's lines with their keys: a list's own, or those of the plate's lines.

    Sets of keys are no cells: `sets.py` merges them.
    """
    statements = [one for one in statements if one.rule != TOGETHER]
    rows = tuple(one for one in statements if one.rule == "picture_line")
    if not rows:
        return _list_of(statements)
    others = [one for one in statements if one.rule != "picture_line"]
    return LayerLines(rows, tuple(plate), True, _list_of(others) if others else None)


def _list_of(statements: Sequence[Statement]) -> LayerLines:
    return LayerLines(tuple(statements), tuple(map(_own_keys, statements)), False)


def _own_keys(statement: Statement) -> KeyNames:
    return tuple(part.words[0] for part in statement.parts)


def parts_of(frame: LayerLines, number: int) -> dict[str, Part]:
    """Return the parts of a line by the key that each is about."""
    return dict(zip(frame.keys[number], frame.statements[number].parts, strict=True))


def said_in(frame: LayerLines) -> dict[str, Words]:
    """Return what a layer says of each key that it gives something to do, in words."""
    found = {}
    for number in range(len(frame.statements)):
        for key, part in parts_of(frame, number).items():
            found[key] = part.words if frame.is_picture else part.words[2:]
    found = {key: words for key, words in found.items() if words != (SEE_THROUGH,)}
    return found | (said_in(frame.beside) if frame.beside else {})


def with_cell(part: Part, words: Words, *, is_picture: bool) -> Part:
    """Return a cell that says something else; its blanks stay."""
    if is_picture:
        return changed(part, text=(Piece("word", " ".join(words)),))
    if part.words[2:] == words:
        return part
    sign = next(n for n, piece in enumerate(part.text) if piece.text == "=")
    after = part.text[sign + 1 : sign + 2] if part.text[sign + 1].kind == "gap" else ()
    return changed(part, text=(*part.text[: sign + 1], *after, *_spaced(words)))


def _spaced(words: Sequence[str]) -> Iterator[Piece]:
    for place, word in enumerate(words):
        if place and word != ",":
            yield BLANK
        yield Piece("word", word)


def new_cell(key: str, words: Words, *, is_picture: bool) -> Part:
    """Return a cell with a blank before it."""
    said = words if is_picture else (key, "=", *words)
    return Part(("key", key), (BLANK,), tuple(_spaced(said)))


def list_lines(
    frame: LayerLines, other: LayerLines | None, values: Mapping[str, Words | None]
) -> list[tuple[Id, Statement]]:
    """Return the lines of a list with these cells: the frame's, then what the other side added."""
    lines = [ListLine(frame, number, values) for number in range(len(frame.statements))]
    here = {key for keys in frame.keys for key in keys}
    added = {key: words for key, words in values.items() if key not in here and words is not None}
    if other and not other.is_picture:
        for number, keys in enumerate(other.keys):
            new = {key: added.pop(key) for key in keys if key in added}
            if new:
                _insert(lines, other, number, new)
    found = [(line.id, line.statement()) for line in lines if line.cells]
    return [*found, *([_line_of(added)] if added else [])]


def _insert(
    lines: list[ListLine], other: LayerLines, number: int, new: Mapping[str, Words]
) -> None:
    """Put new cells of the other side behind what they stand behind there."""
    keys = list(other.keys[number])
    before = [key for line in other.keys[:number] for key in line]
    if set(keys) == set(new):
        near = next((key for key in reversed(before) if _has(lines, key)), None)
        lines.insert(_place(lines, near) + 1 if near else 0, ListLine(other, number, new))
        return
    for key, words in new.items():
        part = with_cell(parts_of(other, number)[key], words, is_picture=False)
        first = keys.index(key)
        beside = [*reversed(keys[:first]), *keys[first:], *reversed(before)]
        near = next((one for one in beside if _has(lines, one)), None)
        if near is None:
            lines.append(ListLine(other, number, {key: words}))
        else:
            lines[_place(lines, near)].add(part, after=near if near in keys[:first] else None)


def _has(lines: Sequence[ListLine], key: str) -> bool:
    return any(key in line.cells for line in lines)


def _place(lines: Sequence[ListLine], key: str) -> int:
    return next(place for place, line in enumerate(lines) if key in line.cells)


def _line_of(cells: Mapping[str, Words]) -> tuple[Id, Statement]:
    """Return a line of a list with cells that stood in a picture, or in none."""
    parts = [new_cell(key, words, is_picture=False) for key, words in cells.items()]
    line = Statement(rule="entries", line=0, above=(), pieces=(BLANK,))
    return ("cells", next(iter(cells))), joined(line, parts, (LINE_END,))


class ListLine:
    """One line of a list: its cells, by key, in their order."""

    def __init__(self, frame: LayerLines, number: int, values: Mapping[str, Words | None]) -> None:
        self._statement = frame.statements[number]
        self._first = self._statement.parts[0]
        self.id: Id = ("cells", frame.keys[number][0])
        self.cells = {
            key: with_cell(part, words, is_picture=False)
            for key, part in parts_of(frame, number).items()
            if (words := values.get(key)) is not None
        }

    def add(self, part: Part, after: str | None) -> None:
        """Put a cell after another one, or first."""
        cells = list(self.cells.items())
        place = list(self.cells).index(after) + 1 if after else 0
        new = part.words[0], changed(part, lead=APART)
        self.cells = dict([*cells[:place], new, *cells[place:]])

    def statement(self) -> Statement:
        """Return the line; its first cell stands where the line began."""
        first, *others = carried(list(self.cells.values()), self._statement)
        others = [changed(one, lead=APART) if one.id == self._first.id else one for one in others]
        parts = [changed(first, lead=self._first.lead), *others]
        return joined(self._statement, parts, self._statement.tail)


def picture_lines(
    plate: Sequence[tuple[Id, KeyNames]],
    rows: Mapping[Id, tuple[LayerLines, int]],
    values: Mapping[str, Words | None],
) -> list[tuple[Id, Statement]]:
    """Return the rows of a picture for a plate, given by its lines with their names.

    `rows` has the row, and the picture that it is of, for each line of the plate that has one. Keys
    of a row that are on the plate no more, but have a cell, stay where they were.
    """
    on_plate = {key for _, line in plate for key in line}
    model = next(iter(rows.values()))
    found: list[tuple[Id, Statement]] = []
    for id, line in plate:
        frame, number = rows.get(id, model)
        old = parts_of(frame, number) if id in rows else {}
        keys = _with_lost(line, list(old), [k for k in old if k not in on_plate and values.get(k)])
        cells = [_row_cell(old.get(key), key, values.get(key)) for key in keys]
        row = _row(frame.statements[number], cells, is_new=id not in rows)
        found.append((("row", id), row))
    return found


def _with_lost(line: KeyNames, old: list[str], lost: list[str]) -> list[str]:
    keys = list(line)
    for key in lost:
        before = [one for one in old[: old.index(key)] if one in keys]
        keys.insert(keys.index(before[-1]) + 1 if before else 0, key)
    return keys


def _row_cell(old: Part | None, key: str, words: Words | None) -> Part:
    said = words or (SEE_THROUGH,)
    if old is None:
        return new_cell(key, said, is_picture=True)
    return old if old.words == said else with_cell(old, said, is_picture=True)


def _row(model: Statement, cells: Sequence[Part], *, is_new: bool) -> Statement:
    """Return a row with these cells, its indentation that of a row which is there."""
    indent = model.parts[0]
    if not is_new:
        cells = carried(cells, model)
    first, *others = cells
    others = [changed(one, lead=(BLANK,)) if one.id == indent.id else one for one in others]
    parts = [changed(first, lead=indent.lead), *others]
    if is_new:
        plain = Statement(rule=model.rule, line=0, above=(), pieces=())
        return joined(plain, parts, (LINE_END,))
    return joined(model, parts, model.tail)
