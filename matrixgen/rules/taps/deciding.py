"""Cells whose keys have a tap and a hold."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Cell, Keyboard, TapHold, Together


def deciding_cells(keyboard: Keyboard) -> Iterator[Cell | Together]:
    """Yield each cell with a tap and a hold."""
    return (cell for cell in keyboard.cells if isinstance(cell.action, TapHold))
