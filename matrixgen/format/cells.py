"""Rows of cells under each other, each cell in its column."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise

from matrixgen.record import Record, changed

NARROWEST = 2
"""Letters that a column takes at least, a blank included: a gap of the plate is seen."""


class SpacedCell(Record):
    """A cell's column, or None for one that follows the cell before it, and where it ends.

    `end` is the column before which its text has to end: a wide key has several columns' room.
    """

    column: int | None
    end: int
    text: str


class _Placed(Record):
    """A cell, or several that share its column."""

    column: int
    end: int
    text: str


def in_columns(rows: Sequence[Sequence[SpacedCell]], room: int) -> list[str]:
    """Return the text of each row of cells; not aligned where one would not fit into `room`."""
    merged = [_merged(row) for row in rows]
    places = _places([cell for row in merged for cell in row])
    widest = max((places[row[-1].column] + len(row[-1].text) for row in merged if row), default=0)
    if widest > room:
        return [" ".join(cell.text for cell in row) for row in merged]
    return [_text(row, places) for row in merged]


def _merged(row: Sequence[SpacedCell]) -> list[_Placed]:
    """Return a row in which each cell without a column is part of the one before it."""
    merged: list[_Placed] = []
    for cell in row:
        if merged and (cell.column is None or cell.column <= merged[-1].column):
            last = merged[-1]
            merged[-1] = changed(last, end=cell.end, text=f"{last.text} {cell.text}")
        else:
            column = cell.end - 1 if cell.column is None else cell.column
            merged.append(_Placed(column, cell.end, cell.text))
    ends = [min(cell.end, after.column) for cell, after in pairwise(merged)]
    return [
        changed(cell, end=end)
        for cell, end in zip(merged, [*ends, *(c.end for c in merged[-1:])], strict=True)
    ]


def _places(cells: Sequence[_Placed]) -> dict[int, int]:
    """Return where each column starts: as far left as the cells before it let it."""
    ending: dict[int, list[_Placed]] = defaultdict(list)
    for cell in cells:
        ending[cell.end].append(cell)
    columns = sorted({cell.column for cell in cells} | ending.keys())
    places = dict.fromkeys(columns[:1], 0)
    for last, column in pairwise(columns):
        least = places[last] + NARROWEST * (column - last)
        ends = (places[cell.column] + len(cell.text) + 1 for cell in ending[column])
        places[column] = max([least, *ends])
    return places


def _text(row: Sequence[_Placed], places: dict[int, int]) -> str:
    text = ""
    for cell in row:
        text = text.ljust(places[cell.column]) + cell.text
    return text
