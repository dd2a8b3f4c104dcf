"""A keyboard that can start its boot loader in two ways, for the tests of each chip family."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.model import BootLoader, StartBootLoader
from matrixgen.record import changed
from tests.emulators.keyboards import square, word

HOLD = ("K00", "K01", "K10")
LAYER_KEY, LOADER_KEY = "K11", "K00"


def keyboard(controller: str) -> Mounted:
    """Four keys: three that start the boot loader together, and one of them on layer 1 alone."""
    plain = square(2, layers=2, controller=controller)
    base, upper = plain.keyboard.layers
    cells = tuple(
        changed(cell, action=StartBootLoader()) if cell.key.text == LOADER_KEY else cell
        for cell in upper.cells
    )
    hold = BootLoader(tuple(map(word, HOLD)))
    layers = (base, changed(upper, cells=cells))
    return changed(plain, keyboard=changed(plain.keyboard, layers=layers, boot_loader=hold))
