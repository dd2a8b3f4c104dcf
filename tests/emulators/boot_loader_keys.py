"""A keyboard that can start its boot loader in two ways, for the tests of each chip family."""

from __future__ import annotations

from matrixgen.model import BootLoader, Keyboard, StartBootLoader
from matrixgen.model.record import changed
from tests.emulators.keyboards import square, word

HOLD = ("K00", "K01", "K10")
LAYER_KEY, LOADER_KEY = "K11", "K00"


def keyboard(controller: str) -> Keyboard:
    """Four keys: three that start the boot loader together, and one of them on layer 1 alone."""
    plain = square(2, layers=2, controller=controller)
    base, upper = plain.layers
    cells = tuple(
        changed(cell, action=StartBootLoader()) if cell.key.text == LOADER_KEY else cell
        for cell in upper.cells
    )
    hold = BootLoader(tuple(map(word, HOLD)))
    return changed(plain, layers=(base, changed(upper, cells=cells)), boot_loader=hold)
