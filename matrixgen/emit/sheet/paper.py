"""What only paper has: pictures at their true size over several sheets of it, to be joined."""

from __future__ import annotations

from itertools import product
from math import ceil

from matrixgen.emit.sheet.frame import PAPER_MM, Box, number
from matrixgen.model.geometry import Point
from matrixgen.record import Record

OVERLAP_MM = 10.0
"""How wide the strip is that two tiles side by side both show: crosses lie in its middle."""

TILE_WIDE_MM, TILE_HIGH_MM = PAPER_MM - 5, 168.0
"""How large a tile is at most: with its caption it fits on A4 and on Letter, lying."""


class Tile(Record):
    """A part of a picture for a sheet of paper of its own: its box, its crosses, what to say of it.

    `crosses` are where its crosses are in the picture: neighbours show the same ones.
    """

    box: Box
    crosses: tuple[Point, ...]
    words: str


def tiles_of(box: Box) -> tuple[Tile, ...]:
    """Return the tiles, row by row, of a picture that is too large for a sheet at its true size."""
    if box.scale == 1:
        return ()
    columns, width = _cut(box.width, TILE_WIDE_MM)
    rows, height = _cut(box.height, TILE_HIGH_MM)
    tiles = []
    for row, column in product(range(rows), range(columns)):
        x = box.x + column * (width - OVERLAP_MM)
        y = box.y + row * (height - OVERLAP_MM)
        inner = OVERLAP_MM / 2
        crosses = product((x + inner, x + width - inner), (y + inner, y + height - inner))
        words = f"{_sheet(column, row, columns, rows)} {_apart(width, height)}"
        tiles.append(Tile(Box(x=x, y=y, width=width, height=height), tuple(crosses), words))
    return tuple(tiles)


def _cut(length: float, most: float) -> tuple[int, float]:
    """Return into how many equal parts a length is cut that lie over each other, and their length.

    They are whole millimetres between their crosses, so that a ruler can tell.
    """
    count = max(1, ceil((length - OVERLAP_MM) / (most - OVERLAP_MM)))
    return count, ceil((length - OVERLAP_MM) / count) + OVERLAP_MM


def _sheet(column: int, row: int, columns: int, rows: int) -> str:
    """Return which sheet it is, and on which sides another one follows."""
    this, count = row * columns + column + 1, rows * columns
    beside = {
        "left": (column > 0, this - 1),
        "right": (column < columns - 1, this + 1),
        "top": (row > 0, this - columns),
        "bottom": (row < rows - 1, this + columns),
    }
    others = [
        f"sheet {other} at its {side}" for side, (is_there, other) in beside.items() if is_there
    ]
    return f"Sheet {this} of {count}: {', '.join(others)}." if others else ""


def _apart(width: float, height: float) -> str:
    """Return how far the crosses of a tile are from each other."""
    across, down = number(width - OVERLAP_MM), number(height - OVERLAP_MM)
    return f"Its crosses are {across} mm apart across and {down} mm down."
