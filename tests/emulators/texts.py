"""Texts with every letter of ten languages on one keyboard, and keys that meet them.

The strokes are those that the reader makes of a file with the text; a file has one layout only, so
that the keyboard is put together from ten.
"""

from __future__ import annotations

import functools
from pathlib import Path

from matrixgen.boards import Mounted
from matrixgen.model import Action, InTurn, Press, TapHold
from matrixgen.record import changed
from matrixgen.source import read_design
from tests.emulators.keyboards import key_name, square

LINES = (Path(__file__).parent / "data" / "texts.txt").read_text("utf-8").splitlines()
ROWS = [line.split(" ", 2) for line in LINES if not line.startswith("#")]

TEXTS = {layout: text for layout, _, text in ROWS}
LETTERS = {layout: letters for layout, letters, _ in ROWS}
"""What a text has to have besides a to z."""

KEYS = {layout: key_name(*divmod(place, 4)) for place, layout in enumerate(TEXTS)}
OTHERS = [key_name(*divmod(place, 4)) for place in range(10, 16)]
PLAIN, SHIFT, MANY, TAP, LONG_WAIT, SECOND = OTHERS
"""A letter, Shift, several keys in turn, a tap that types a text, two shortcuts far apart, and
another letter."""


def file_of(layout: str, cell: str) -> str:
    return (
        f'keyboard "Text"\n  controller atmega32u4\n  computer {layout} on linux\n\n'
        f"plate\n  line A\n\nlayer base\n  A = {cell}\n"
    )


def action_of(layout: str, cell: str) -> Action:
    """Return what a file with that computer's layout makes of a cell."""
    design, findings = read_design("text.keys", file_of(layout, cell))
    assert design is not None, findings
    return design.keyboard.layers[0].cells[0].action


def typed(layout: str, text: str) -> InTurn:
    action = action_of(layout, f'type "{text}"')
    assert isinstance(action, InTurn)
    return action


@functools.cache
def text_keyboard(controller: str, *, with_taps: bool = True) -> Mounted:
    """Return sixteen keys: ten texts, and six that meet them."""
    mounted = square(4, controller=controller)
    cells: dict[str, Action] = {KEYS[layout]: typed(layout, text) for layout, text in TEXTS.items()}
    cells |= {
        PLAIN: Press(0x04),
        SHIFT: Press(0, 0x02),
        MANY: action_of("de", 'Ctrl+K, then wait 50 ms, then type "Öl", then Enter'),
        TAP: TapHold(typed("de", "Äpfel"), Press(0, 0x01)),
        LONG_WAIT: action_of("de", "Ctrl+K, then wait 2550 ms, then Ctrl+K"),
        SECOND: Press(0x05),
    }
    if not with_taps:
        cells[TAP] = Press(0x07)
    (base,) = mounted.keyboard.layers
    made = tuple(changed(cell, action=cells[cell.key.text]) for cell in base.cells)
    layers = (changed(base, cells=made),)
    return changed(mounted, keyboard=changed(mounted.keyboard, layers=layers))
