"""The plate's columns: which cells of a `line`, and of a picture, stand under each other.

A key stands in the column of the unit at which it begins, counted from its line's own start: the
shape of a staggered plate is kept, and a gap leaves room. A cell whose column is taken in its line
follows the one before it. Lines of a cluster have columns of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_FLOOR, Decimal
from itertools import accumulate
from re import fullmatch

from matrixgen.record import Record
from matrixgen.source.statements.places import FIRST_WORDS as PLACES

OFFSETS = ("in", "down")
GAP = "~"

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
    head: tuple[str, ...]
    cells: tuple[PlateCell, ...]

    @property
    def key_columns(self) -> tuple[Columns, ...]:
        """The columns of each of its keys."""
        return tuple(cell.columns for cell in self.cells if cell.is_key)


def plate_rows(words: Sequence[tuple[str | None, tuple[str, ...]]]) -> Iterator[PlateRow]:
    """Yield the lines of a plate, of whose statements the rules and all words are given."""
    cluster = 0
    for rule, line in words:
        if rule == "plate_line":
            yield _row(cluster, line)
        elif rule not in PLACES:
            cluster += 1


def _row(cluster: int, words: tuple[str, ...]) -> PlateRow:
    end, start = 1, Decimal(0)
    while (
        words[end] in OFFSETS and words[end + 1 :] and fullmatch(r"-?[0-9][0-9.]*", words[end + 1])
    ):
        if words[end] == "in":
            start = Decimal(words[end + 1])
        end += 2
    cells = words[end:]
    starts = list(accumulate(map(_length, cells), initial=start))
    units = [int(place.to_integral_value(ROUND_FLOOR)) for place in starts]
    return PlateRow(cluster=cluster, head=words[:end], cells=tuple(_cells(cells, units)))


def _length(cell: str) -> Decimal:
    size = cell[1:] if _is_gap(cell) else cell.partition(":")[2].partition("x")[0]
    return Decimal(size or 1)


def _is_gap(cell: str) -> bool:
    return cell.startswith(GAP)


def _cells(texts: Sequence[str], units: Sequence[int]) -> Iterator[PlateCell]:
    """Yield the cells of a line; of a gap and a key that begin in one unit, the key has it."""
    last: int | None = None
    for text, unit, following in zip(texts, units, units[1:], strict=False):
        is_free = last is None or unit > last
        if _is_gap(text):
            is_free = is_free and following > unit
        yield PlateCell(
            text=text,
            is_key=not _is_gap(text),
            column=unit if is_free else None,
            end=max(following, unit + 1),
        )
        if is_free:
            last = unit
