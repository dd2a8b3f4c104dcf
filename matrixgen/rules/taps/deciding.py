"""Cells whose keys have a tap and a hold."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Behaviour, Cell, Keyboard, TapHold, Together


def deciding_cells(keyboard: Keyboard) -> Iterator[Cell | Together]:
    """Yield each cell with a tap and a hold."""
    for layer in keyboard.layers:
        yield from (cell for cell in layer.every_cell if isinstance(cell.action, TapHold))


def first_of_each(keyboard: Keyboard) -> Iterator[tuple[Cell | Together, tuple[str, ...]]]:
    """Yield each such action once, at its first cell, with all keys that have it."""
    found: dict[Behaviour, list[Cell | Together]] = {}
    for cell in deciding_cells(keyboard):
        found.setdefault(cell.action, []).append(cell)
    for cells in found.values():
        yield cells[0], tuple(dict.fromkeys(key for cell in cells for key in cell.key_names))
