"""Holes, areas, the outline of the plate: first words in a column, and the numbers of a kind."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.rows import Row, aligned
from matrixgen.format.stretches import Stretch, spaced
from matrixgen.record import changed
from matrixgen.source.parts import KEYWORD
from matrixgen.source.patterns import pattern
from matrixgen.source.tree import Piece, Statement

_CORNER = r" (?=to |radius )"
"""The blank before the next corner of an outline, and before what stands after the last one."""

OneOf = tuple[Statement, Sequence[Stretch]]
"""A statement, and its stretches."""


def place_rows(statements: Sequence[OneOf]) -> list[Row]:
    """Return the rows of all holes and areas of a plate."""
    numbers = aligned([_numbers(*one) for one in statements], 0)
    return [
        _row(stretches, text) for (_, stretches), (text,) in zip(statements, numbers, strict=True)
    ]


def _numbers(statement: Statement, stretches: Sequence[Stretch]) -> Row:
    """Return a statement's numbers, a field each, to be aligned with others of its kind."""
    *before, last = spaced(_parted(stretches)[1]).split(", ")
    row = Row(group=statement.rule, fields=(*(f"{one}," for one in before), last))
    return row if len(stretches) == 1 else changed(row, group=None)


def _row(stretches: Sequence[Stretch], numbers: str) -> Row:
    if len(stretches) > 1:  # comments stand between its words
        return Row(group=None, fields=(spaced(stretches[0].words),))
    head = spaced(_parted(stretches)[0])
    corners = pattern(_CORNER).split(numbers)  # of an outline, which may be too long for a line
    return Row(group="place", fields=(head,), keys=tuple(corners), may_wrap=len(corners) > 1)


def _parted(stretches: Sequence[Stretch]) -> tuple[Sequence[Piece], Sequence[Piece]]:
    """Return the first words of a statement, and what follows them in its first stretch."""
    words = stretches[0].words
    first = [word for word in words if word.part == KEYWORD]
    return first, words[len(first) :]
