"""The statements of a block, laid out: each kind of statement in columns of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.format.columns import PlateRow
from matrixgen.format.laid import Laid, laid, plainly
from matrixgen.format.lists import is_too_long, list_in_stretches, list_row, wrapped_list
from matrixgen.format.pictures import (
    CellLine,
    aligned_cells,
    picture_line,
    plate_line,
    rows_of_plate,
)
from matrixgen.format.places import place_rows
from matrixgen.format.rows import Row, aligned
from matrixgen.format.statements import row_of
from matrixgen.format.stretches import Stretch, stretches_of
from matrixgen.format.wrap import INDENT
from matrixgen.source.parts import PLACES
from matrixgen.source.tree import BlockTree, Statement

StatementPlan = CellLine | Laid | tuple[tuple[Stretch, ...], Row]
"""A statement whose place among the others is known: a row of cells, a row, or a whole one."""


def laid_out(block: BlockTree, plate: Sequence[PlateRow]) -> list[Laid]:
    """Return the statements of a block as they will be written, without its first line.

    `plate` has the rows of the plate, which a picture follows.
    """
    plans = list(_plans(block, plate))
    cells = iter(aligned_cells([plan for plan in plans if isinstance(plan, CellLine)]))
    rows = [plan for plan in plans if isinstance(plan, tuple)]
    lines = iter(aligned([row for _, row in rows], len(INDENT)))
    made = []
    for plan in plans:
        if isinstance(plan, CellLine):
            made.append(next(cells))
        elif isinstance(plan, Laid):
            made.append(plan)
        else:
            made.append(laid(plan[0], next(lines), len(INDENT)))
    return made


def header(statement: Statement) -> Laid:
    """Return the first line of a block."""
    return plainly(stretches_of(statement), 0)


def _plans(block: BlockTree, plate: Sequence[PlateRow]) -> Iterator[StatementPlan]:
    if block.header.rule == "plate":
        yield from _plans_of_plate(block)
    elif block.header.rule == "layer":
        yield from _plans_of_layer(block, plate)
    else:
        for statement in block.statements:
            stretches = stretches_of(statement)
            yield stretches, row_of(statement, stretches)


def _plans_of_plate(block: BlockTree) -> Iterator[StatementPlan]:
    rows = iter(rows_of_plate(block))
    found = [(statement, stretches_of(statement)) for statement in block.statements]
    places = iter(place_rows([one for one in found if one[0].rule in PLACES]))
    indent = len(INDENT)
    for statement, stretches in found:
        if statement.rule == "plate_line":
            yield plate_line(stretches, next(rows), indent)
        elif statement.rule in PLACES:
            yield stretches, next(places)
        else:
            indent = 2 * len(INDENT)
            yield plainly(stretches, len(INDENT))


def _plans_of_layer(block: BlockTree, plate: Sequence[PlateRow]) -> Iterator[StatementPlan]:
    rows = iter(plate)
    run, length = 0, 0
    for statement in block.statements:
        stretches = stretches_of(statement)
        if statement.rule == "together":
            yield plainly(stretches, len(INDENT))
            length = 0
            continue
        cells = sum(word.terminal == "KEY" for stretch in stretches for word in stretch.words)
        is_long = statement.rule == "entries" and is_too_long(stretches[0].words, len(INDENT))
        if statement.rule == "picture_line":
            yield picture_line(stretches, next(rows, None), len(INDENT))
        elif len(stretches) > 1:
            yield list_in_stretches(stretches, len(INDENT))
        elif is_long:
            yield wrapped_list(stretches[0], len(INDENT))
        else:
            goes_on = cells == length and not statement.above
            run += not goes_on
            yield stretches, list_row(stretches[0].words, run)
        length = cells if len(stretches) == 1 and not is_long else 0
