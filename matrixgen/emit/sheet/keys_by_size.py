"""Which keys have caps, and their sizes."""

from __future__ import annotations

from matrixgen.emit.sheet.frame import number
from matrixgen.model import Key, Keyboard
from matrixgen.model.knob_keys import knob_keys


def with_switches(keyboard: Keyboard) -> tuple[Key, ...]:
    """Return the keys that have a switch and a keycap of their own, not those of knobs."""
    of_knobs = knob_keys(keyboard.plate)
    return tuple(key for key in keyboard.keys if key.name.text not in of_knobs)


def size_of(key: Key) -> str:
    """Return a key's size in key units: how wide it is, and how high if that is not one."""
    return number(key.width) + (f" × {number(key.height)}" if key.height != 1 else "")
