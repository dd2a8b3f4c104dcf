"""The sizes of keycaps."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.emit.sheet.frame import number
from matrixgen.model import Keyboard


def keys_by_size(keyboard: Keyboard) -> Iterator[str]:
    """Yield each key's size in key units, in plate order."""
    for key in keyboard.keys:
        if key.height == 1:
            yield f"{number(key.width)} {'unit' if key.width == 1 else 'units'}"
        else:
            yield f"{number(key.width)} × {number(key.height)} units"
