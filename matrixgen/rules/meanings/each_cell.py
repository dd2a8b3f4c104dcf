"""The actions of a kind, be they parts of others, at the first cell that has them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeVar

from matrixgen.model import Behaviour, Cell, Keyboard, Together, with_parts

B = TypeVar("B", bound=Behaviour)


def first_of_kind(
    keyboard: Keyboard, kind: type[B]
) -> Iterator[tuple[B, Cell | Together, tuple[str, ...]]]:
    """Yield each action of a kind once, at its first cell, with all keys that have it."""
    found: dict[B, list[Cell | Together]] = {}
    for cell in keyboard.cells:
        for part in with_parts(cell.action):
            if isinstance(part, kind):
                found.setdefault(part, []).append(cell)
    for action, cells in found.items():
        keys = dict.fromkeys(key for cell in cells for key in cell.key_names)
        yield action, cells[0], tuple(keys)
