"""Layouts to begin a search with: the plate's lines, those folded, and bands across the plate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from math import cos, radians, sin

from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan

Groups = Sequence[Sequence[int]]
"""Keys in rows or in columns, by their places on the plate."""

SLOPES = (0, 15, -15, 35, -35)
"""Degrees by which the bands of a beginning slope: fanned columns and turned clusters do."""


def as_drawn(plan: Plan, rows: int, columns: int, drawn: Groups) -> Layout | None:
    """Return the plate's own lines as rows, and columns from left to right, if that is the shape.

    The n-th key of each line is on column n.
    """
    if len(drawn) != rows or max(map(len, drawn)) != columns:
        return None
    down = [[key for key in keys if key is not None] for keys in zip_longest(*drawn)]
    return Layout(plan, tuple(map(tuple, drawn)), tuple(map(tuple, down)))


def beginnings(plan: Plan, rows: int, columns: int, drawn: Groups) -> list[Layout]:
    """Return layouts of exactly so many rows and columns to begin with."""
    return list(dict.fromkeys(_beginnings(plan, rows, columns, drawn)))


def _beginnings(plan: Plan, rows: int, columns: int, drawn: Groups) -> Iterator[Layout]:
    plain = as_drawn(plan, rows, columns, drawn)
    if plain:
        yield plain
    of_rows: list[Groups] = [_bands(plan, rows, slope) for slope in (*SLOPES, 90)]
    if len(drawn) == rows:
        of_rows.append(plan.from_top(drawn))
    folded = _folded(drawn, rows, columns)
    if folded:
        of_rows.append(plan.from_top(folded))
    for groups in of_rows:
        across = _dealt(groups, columns)
        if across:
            yield Layout(plan, tuple(map(tuple, groups)), across)
    for slope in SLOPES:
        groups = [band[::-1] for band in reversed(_bands(plan, columns, slope + 90))]
        down = _dealt(groups, rows)
        if down:
            yield Layout(plan, down, tuple(map(tuple, groups)))


def _dealt(groups: Groups, lines: int) -> tuple[tuple[int, ...], ...] | None:
    """Return lines that cross some groups: each key on one as far along as it is in its group.

    Where a line would get none so, keys are dealt out like cards, which leaves no line without one.
    None where a group has more keys than there are lines.
    """
    if max(map(len, groups)) > lines:
        return None
    dealt: list[list[int]] = [[] for _ in range(lines)]
    for group in groups:
        for number, key in enumerate(group):
            dealt[number * lines // len(group)].append(key)
    if not all(dealt):
        keys = [key for group in groups for key in group]
        dealt = [keys[line::lines] for line in range(lines)]
    return tuple(map(tuple, dealt))


def _bands(plan: Plan, bands: int, slope: float) -> list[list[int]]:
    """Return keys in bands of as many each, give or take one, across a turned plate."""
    cosine, sine = cos(radians(slope)), sin(radians(slope))
    down = [(round(y * cosine - x * sine, 3), x) for x, y in plan.points]
    across = [x * cosine + y * sine for x, y in plan.points]
    order = sorted(range(len(down)), key=lambda key: down[key])
    ends = [len(order) * number // bands for number in range(bands + 1)]
    found = (order[ends[n] : ends[n + 1]] for n in range(bands))
    return [sorted(band, key=lambda key: across[key]) for band in found]


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
