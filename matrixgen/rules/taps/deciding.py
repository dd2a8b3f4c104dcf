"""Cells whose keys mean one thing or another, which is decided after they are pressed."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Behaviour, Cell, Keyboard, Together


def deciding_cells(keyboard: Keyboard) -> Iterator[Cell | Together]:
    """Yield each cell with two meanings."""
    for layer in keyboard.layers:
        yield from (cell for cell in layer.every_cell if cell.action.decides_after_ms is not None)


def first_of_each(keyboard: Keyboard) -> Iterator[tuple[Cell | Together, tuple[str, ...]]]:
    """Yield each such action once, at its first cell, with all keys that have it."""
    found: dict[Behaviour, list[Cell | Together]] = {}
    for cell in deciding_cells(keyboard):
        found.setdefault(cell.action, []).append(cell)
    for cells in found.values():
        yield cells[0], tuple(dict.fromkeys(key for cell in cells for key in cell.key_names))
