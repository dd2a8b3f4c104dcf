"""Cells whose keys mean one thing or another, which is decided after they are pressed."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Behaviour, Cell, Keyboard


def deciding_cells(keyboard: Keyboard) -> Iterator[Cell]:
    """Yield each cell with two meanings."""
    for layer in keyboard.layers:
        yield from (cell for cell in layer.cells if cell.action.decides_after_ms is not None)


def first_of_each(keyboard: Keyboard) -> Iterator[tuple[Cell, tuple[str, ...]]]:
    """Yield each such action once, at its first cell, with all keys that have it."""
    found: dict[Behaviour, list[Cell]] = {}
    for cell in deciding_cells(keyboard):
        found.setdefault(cell.action, []).append(cell)
    for cells in found.values():
        yield cells[0], tuple(dict.fromkeys(cell.key.text for cell in cells))
