"""Plates to lay out: rows of keys one unit wide, set in by so many units, in millimetres."""

from __future__ import annotations

from random import Random

from matrixgen.fit.layout import Layout

UNIT = 19.05

Points = list[tuple[float, float]]


def plate(*lines: tuple[float, int]) -> Points:
    """The middles of keys: each line is set in by so many units and has so many keys."""
    return [
        (round((indent + place) * UNIT, 3), round(line * UNIT, 3))
        for line, (indent, keys) in enumerate(lines)
        for place in range(keys)
    ]


def scattered(seed: int, keys: int) -> Points:
    chance = Random(seed)
    return [
        (round(chance.uniform(0, 5) * UNIT, 2), round(chance.uniform(0, 3) * UNIT, 2))
        for _ in range(keys)
    ]


def drawn_lines(*lines: tuple[float, int]) -> list[list[int]]:
    """The keys of each line of such a plate, by their places."""
    found, start = [], 0
    for _, keys in lines:
        found.append(list(range(start, start + keys)))
        start += keys
    return found


def is_matrix(layout: Layout, keys: int, rows: int, columns: int) -> bool:
    """Whether each key is on one row and one column, and no two keys on the same two."""
    if (len(layout.rows), len(layout.columns)) != (rows, columns):
        return False
    row_of = {key: n for n, run in enumerate(layout.rows) for key in run}
    column_of = {key: n for n, run in enumerate(layout.columns) for key in run}
    visits = [sum(map(len, runs)) for runs in (layout.rows, layout.columns)]
    cells = {(row_of[key], column_of[key]) for key in range(keys)}
    return visits == [keys, keys] and len(cells) == keys and all(layout.rows + layout.columns)
