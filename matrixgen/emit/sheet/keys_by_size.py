"""Which keys have caps, and their sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.emit.sheet.frame import number
from matrixgen.model import Key, Keyboard
from matrixgen.model.knob_keys import knob_keys


def with_switches(keyboard: Keyboard) -> tuple[Key, ...]:
    """Return the keys that have a switch and a keycap of their own, not those of knobs."""
    of_knobs = knob_keys(keyboard.plate)
    return tuple(key for key in keyboard.keys if key.name.text not in of_knobs)


def keys_by_size(keys: Iterable[Key]) -> Iterator[str]:
    """Yield each key's size in key units, in their order."""
    for key in keys:
        if key.height == 1:
            yield f"{number(key.width)} {'unit' if key.width == 1 else 'units'}"
        else:
            yield f"{number(key.width)} × {number(key.height)} units"
