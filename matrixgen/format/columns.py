"""The plate's columns: which cells of a `line`, and of a picture, stand under each other.

A key stands in the column of the unit at which it begins, counted from its line's own start: the
shape of a staggered plate is kept, and a gap leaves room. A cell whose column is taken in its line
follows the one before it. Lines of a cluster have columns of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import ROUND_FLOOR, Decimal
from itertools import accumulate

from matrixgen.format.stretches import spaced
from matrixgen.record import Record
from matrixgen.source.parts import PLACES
from matrixgen.source.tree import Part, Piece, Statement, words_in

Columns = tuple[int | None, int]
"""The column that a cell stands in, None for one that follows another, and the one after it."""


class PlateCell(Record, kw_only=True):
    """A key or a gap of a `line`, from its column up to another; None where its column is taken."""

    text: str
    is_key: bool
    column: int | None
    end: int

    @property
    def columns(self) -> Columns:
        """The column it stands in, and the first one that it leaves free."""
        return self.column, self.end


class PlateRow(Record, kw_only=True):
    """A `line` of the plate: the cluster it belongs to, its first words, and its cells."""

    cluster: int
    head: tuple[Piece, ...]
    cells: tuple[PlateCell, ...]

    @property
    def key_columns(self) -> tuple[Columns, ...]:
        """The columns of each of its keys."""
        return tuple(cell.columns for cell in self.cells if cell.is_key)


def plate_rows(statements: Iterable[Statement]) -> Iterator[PlateRow]:
    """Yield the lines of a plate, of which all statements are given."""
    cluster = 0
    for statement in statements:
        if statement.rule == "plate_line":
            yield _row(cluster, statement.parts)
        elif statement.rule not in PLACES:
            cluster += 1


def _row(cluster: int, parts: Sequence[Part]) -> PlateRow:
    cells = [words_in(part.text) for part in parts if part.id[0] in ("key", "gap")]
    head = [part for part in parts if part.id[0] not in ("key", "gap")]
    offsets = [Decimal(part.words[1]) for part in head if part.id[0] == "in"]
    starts = list(accumulate(map(_length, cells), initial=offsets[-1] if offsets else Decimal(0)))
    units = [int(place.to_integral_value(ROUND_FLOOR)) for place in starts]
    words = tuple(word for part in head for word in words_in(part.text))
    return PlateRow(cluster=cluster, head=words, cells=tuple(_cells(cells, units)))


def _length(cell: Sequence[Piece]) -> Decimal:
    """Return how far a key or a gap reaches: the number behind the sign of its size, or 1."""
    sized = [word.text[1:] for word in cell if word.terminal in ("GAP", "SIZE")]
    return Decimal(sized[0].partition("x")[0] if sized else 1)


def _cells(cells: Sequence[Sequence[Piece]], units: Sequence[int]) -> Iterator[PlateCell]:
    """Yield the cells of a line; of a gap and a key that begin in one unit, the key has it."""
    last: int | None = None
    for cell, unit, following in zip(cells, units, units[1:], strict=False):
        is_key = cell[0].terminal == "KEY"
        is_free = (last is None or unit > last) and (is_key or following > unit)
        yield PlateCell(
            text=spaced(cell),
            is_key=is_key,
            column=unit if is_free else None,
            end=max(following, unit + 1),
        )
        if is_free:
            last = unit
