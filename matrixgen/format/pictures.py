"""Lines of the plate, and of a layer's picture: rows of cells in the plate's columns."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence

from matrixgen.format.cells import SpacedCell, in_columns
from matrixgen.format.columns import Columns, PlateRow, plate_rows
from matrixgen.format.laid import Laid, plainly
from matrixgen.format.stretches import Stretch, spaced
from matrixgen.format.wrap import GOES_ON, INDENT, LONGEST
from matrixgen.record import Record
from matrixgen.source.tree import BlockTree

Stretches = tuple[Stretch, ...]
NO_CLUSTER = -1
"""The group of a picture's lines that fit no line of the plate: their cells are only counted."""


class CellLine(Record, kw_only=True):
    """A statement of cells: its group, the words before the cells, and each stretch's cells."""

    stretches: Stretches
    group: Hashable
    indent: int
    head: str = ""
    cells: tuple[tuple[SpacedCell, ...], ...]


def rows_of_plate(block: BlockTree) -> tuple[PlateRow, ...]:
    """Return the lines of a plate."""
    return tuple(plate_rows(block.statements))


def plate_line(stretches: Stretches, row: PlateRow, indent: int) -> CellLine | Laid:
    """Return a line of the plate; plainly where a line end stands before or in its first cell."""
    sizes = [
        sum(word.terminal in ("KEY", "GAP") for word in stretch.words) for stretch in stretches
    ]
    if not sizes[0] or any(stretch.words[0].terminal == "SIZE" for stretch in stretches[1:]):
        return plainly(stretches, indent)
    cells = [SpacedCell(*cell.columns, cell.text) for cell in row.cells]
    return CellLine(
        stretches=stretches,
        group=row.cluster,
        indent=indent,
        head=spaced(row.head),
        cells=tuple(_cut(cells, sizes)),
    )


def picture_line(stretches: Stretches, row: PlateRow | None, indent: int) -> CellLine:
    """Return a line of a picture; `row` is the plate's, if there is one."""
    words = [word.text for stretch in stretches for word in stretch.words]
    group, columns = NO_CLUSTER, tuple[Columns, ...]((n, n + 1) for n in range(len(words)))
    if row is not None and len(row.key_columns) == len(words):
        group, columns = row.cluster, row.key_columns
    cells = [SpacedCell(*places, word) for places, word in zip(columns, words, strict=True)]
    sizes = [len(stretch.words) for stretch in stretches]
    return CellLine(
        stretches=stretches, group=group, indent=indent, cells=tuple(_cut(cells, sizes))
    )


def _cut(cells: Sequence[SpacedCell], sizes: Sequence[int]) -> Iterator[tuple[SpacedCell, ...]]:
    start = 0
    for size in sizes:
        yield tuple(cells[start : start + size])
        start += size


def aligned_cells(lines: Sequence[CellLine]) -> list[Laid]:
    """Return lines of cells, the stretches of each group aligned with those of the same number."""
    heads = _head_widths(lines)
    texts: dict[tuple[int, int], str] = {}
    groups: dict[tuple[Hashable, int], list[int]] = defaultdict(list)
    for number, line in enumerate(lines):
        for place in range(len(line.cells)):
            groups[line.group, place].append(number)
    for (group, place), members in groups.items():
        before = len(GOES_ON) + 1 + len(INDENT) if place else heads[group]
        room = LONGEST - lines[members[0]].indent - before
        rows = in_columns([lines[number].cells[place] for number in members], room)
        texts |= {(number, place): row for number, row in zip(members, rows, strict=True)}
    return [_laid(line, number, texts, heads[line.group]) for number, line in enumerate(lines)]


def _head_widths(lines: Sequence[CellLine]) -> dict[Hashable, int]:
    """Return the width of what stands before each group's cells.

    After a number two blanks follow, or the next key could be taken for one.
    """
    widths: dict[Hashable, int] = defaultdict(int)
    for line in lines:
        widths[line.group] = max(widths[line.group], min(len(_head(line)), LONGEST))
    return widths


def _head(line: CellLine) -> str:
    """Return what stands before the cells, and the blanks after it."""
    return f"{line.head}  " if " " in line.head else line.head and f"{line.head} "


def _laid(line: CellLine, number: int, texts: dict[tuple[int, int], str], width: int) -> Laid:
    first, *others = (texts[number, place] for place in range(len(line.cells)))
    rows = (_head(line).ljust(width) + first, *(f"{GOES_ON} {one}" for one in others))
    return Laid(line.stretches, rows, line.indent)
