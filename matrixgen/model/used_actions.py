"""Which names of the block `actions` a cell has, or another action."""

from __future__ import annotations

from matrixgen.model.keyboard import Keyboard


def used_actions(keyboard: Keyboard) -> frozenset[str]:
    """Return the names that stand in a cell, and those whose action is part of another one."""
    cells = (cell for cell in keyboard.cells if cell.given)
    words = {word for cell in cells for word in cell.written.text.replace(",", " ").split()}
    parts = {part for named in keyboard.actions for part in named.action.parts}
    return frozenset(
        named.name.text
        for named in keyboard.actions
        if named.name.text in words or named.action in parts
    )
