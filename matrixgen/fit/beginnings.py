"""Rows to begin a search with: the plate's own lines, those folded, and bands across the plate."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from math import cos, radians, sin

from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan

Groups = Sequence[Sequence[int]]
"""Keys in rows or in columns, by their places on the plate."""

SLOPES = (0, 15, -15, 35, -35, 90)
"""Degrees by which the bands of a beginning slope: fanned columns and turned clusters do."""


def as_drawn(plan: Plan, rows: int, columns: int, drawn: Groups) -> Layout | None:
    """Return the plate's own lines as rows, and columns from left to right, if that is the shape.

    The n-th key of each line is on column n.
    """
    if len(drawn) != rows or max(map(len, drawn)) != columns:
        return None
    down = [[key for key in keys if key is not None] for keys in zip_longest(*drawn)]
    return Layout(plan, tuple(map(tuple, drawn)), tuple(map(tuple, down)))


def beginnings(plan: Plan, rows: int, columns: int, drawn: Groups) -> list[Groups]:
    """Return rows to begin with, each as many as asked for, from the top down."""
    found: list[Groups] = [_bands(plan, rows, slope) for slope in SLOPES]
    if len(drawn) == rows and max(map(len, drawn)) <= columns:
        found.append(plan.from_top(drawn))
    folded = _folded(drawn, rows, columns)
    if folded:
        found.append(plan.from_top(folded))
    return found


def _bands(plan: Plan, rows: int, slope: float) -> list[list[int]]:
    """Return keys in bands of as many each, give or take one, across a turned plate."""
    cosine, sine = cos(radians(slope)), sin(radians(slope))
    down = [(round(y * cosine - x * sine, 3), x) for x, y in plan.points]
    across = [x * cosine + y * sine for x, y in plan.points]
    order = sorted(range(len(down)), key=lambda key: down[key])
    ends = [len(order) * number // rows for number in range(rows + 1)]
    bands = (order[ends[n] : ends[n + 1]] for n in range(rows))
    return [sorted(band, key=lambda key: across[key]) for band in bands]


def _folded(drawn: Groups, rows: int, columns: int) -> list[list[int]] | None:
    """Return the plate's lines cut into pieces, each put on a row that still has room for it."""
    pieces = [
        list(line[start : start + columns])
        for line in drawn
        for start in range(0, len(line), columns)
    ]
    folded: list[list[int]] = []
    for piece in sorted(pieces, key=len, reverse=True):
        room = next((row for row in folded if len(row) + len(piece) <= columns), None)
        if room is None:
            folded.append(piece)
        else:
            room.extend(piece)
    return folded if len(folded) == rows else None
