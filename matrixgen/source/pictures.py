"""Pictures: layers in the plate's shape, one cell for each key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.keyboard import PlateLine
from matrixgen.source.names import count
from matrixgen.source.reading import Reading, tokens

if TYPE_CHECKING:
    from matrixgen.source.parser import Node


def has_plate_shape(reading: Reading, lines: list[Node], plate: tuple[PlateLine, ...]) -> bool:
    """Whether a picture has one cell for each key of each line; report where it has not.

    Where a line of the file could not be read, the shapes cannot be compared, and nothing is said.
    """
    widths = [len(line.children) for line in lines]
    if widths == [len(line.keys) for line in plate]:
        return True
    if not (plate and reading.is_whole):
        return False
    if len(lines) != len(plate):
        _report_height(reading, lines, plate)
        return False
    for number, (line, plate_line) in enumerate(zip(lines, plate, strict=True), 1):
        if len(line.children) != len(plate_line.keys):
            _report_line(reading, line, plate_line, number)
    return False


def _report_height(reading: Reading, lines: list[Node], plate: tuple[PlateLine, ...]) -> None:
    """Report a missing or a spare line, where a reader would put or remove it: at the end."""
    want, have = len(plate), len(lines)
    missing = [Note(f"line {have + 1} of the plate", plate[have].span)] if have < want else []
    reading.report(
        "picture-shape",
        reading.whole(lines[min(want, have - 1)]),
        f"the picture has {count(have, 'line')}, the plate has {want}",
        help="a picture has one line for each `line` of the plate",
        notes=missing,
    )


def _report_line(reading: Reading, line: Node, plate_line: PlateLine, number: int) -> None:
    """Report a line with too few or too many cells, under its last one or the ones too many."""
    cells, want = tokens(line), len(plate_line.keys)
    last = reading.span(cells[-1])
    reading.report(
        "picture-shape",
        reading.span(cells[want]).to(last) if len(cells) > want else last,
        f"line {number} of the picture has {count(len(cells), 'cell')} for {count(want, 'key')}",
        help="write `~` for a key that keeps the action of the layer below",
        notes=[Note(f"line {number} of the plate", plate_line.span)],
    )
