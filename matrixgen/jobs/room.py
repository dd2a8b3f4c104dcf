"""Whether it is plain that a keyboard's image has room in its controller: most need not wait."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import Mounted
from matrixgen.families import FAMILIES
from matrixgen.model import InTurn, Keyboard

FORETOLD = frozenset({"image-without-room", "image-near-limit"})
"""What `foretell.py` finds. A build does not ask for it, since it measures."""

UNSURE = 0.03
"""How near to what there is nothing is foretold for sure, as a share of it."""

LARGEST_CODE, LARGEST_VARIABLES = 14_000, 400
"""Bytes of flash and RAM that no code takes, whatever it is built by: `tests/sizes` tries it."""

LARGEST_CELL, LARGEST_KEY = 30, 6
"""Bytes of flash that no cell of a layer takes, and of RAM that no key takes."""


LARGEST_STROKE = 2
"""Bytes of flash that a stroke or a wait of what is typed in turn takes; its end is its cell's."""


def strokes_of(keyboard: Keyboard) -> Iterator[int]:
    """Yield how many strokes and waits each action that types in turn has."""
    turns = [one for one in keyboard.every_action if isinstance(one, InTurn)]
    return (len(list(one.moves)) for one in turns)


def may_lack_room(mounted: Mounted) -> bool:
    """Whether the size of an image is to be foretold, or plainly too small for that."""
    family = FAMILIES.get(mounted.profile.port or "")
    if family is None:
        return False
    keyboard, profile = mounted.keyboard, mounted.profile
    keys = len(keyboard.keys)
    cells = sum(len(layer.cells) for layer in keyboard.layers)
    flash = LARGEST_CODE + keys * len(keyboard.layers) * 2 + cells * LARGEST_CELL
    flash += LARGEST_STROKE * sum(strokes_of(keyboard))
    ram = LARGEST_VARIABLES + keys * LARGEST_KEY + family.stack_bytes
    sure = 1 - UNSURE
    return flash > profile.room_bytes * sure or ram > profile.ram_bytes * sure
