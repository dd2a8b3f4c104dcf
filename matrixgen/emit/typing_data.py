"""What a page's script knows of the computer's layout: see `templates/sheet/press/engine.js`.

Only what the keyboard can send is told: of a layout with dead keys, the pairs of all keys would be
as long as the engine.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.computer.setting import layout_of, set_to
from matrixgen.layouts import HostLayout
from matrixgen.layouts.marks import is_dead_mark
from matrixgen.layouts.strokes import LEVELS, level_of
from matrixgen.model import Keyboard
from matrixgen.model.actions import InTurn, OnceModifiers, Pause, Press
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.us_layout import (
    BREAKS,
    CAPS_LOCK,
    EDITS,
    KEYPAD_SIGNS,
    NUM_LOCK,
    NUMBERS,
    NUMBERS_ELSE,
    SIGNS,
)

Marks = dict[int, list[str | None]]


def typing_data(keyboard: Keyboard) -> dict[str, Any]:
    """Return what the computer makes of usages: by the layout that the file names, or a US one."""
    layout = layout_of(keyboard)
    return {
        **(_us() if layout is None else _of_layout(layout, list(_strokes(keyboard)))),
        "breaks": {usage: [sign, sign if sign == "\n" else ""] for usage, sign in BREAKS.items()},
        "numbers": list(NUMBERS),
        "numbers_else": NUMBERS_ELSE,
        "edits": EDITS,
        "caps_lock": CAPS_LOCK,
        "num_lock": NUM_LOCK,
    }


def _us() -> dict[str, Any]:
    signs = {usage: list(both) for usage, both in SIGNS.items()}
    locked = {usage: [b, a] for usage, (a, b) in SIGNS.items() if a.isalpha()}
    signs |= {usage: [sign, sign] for usage, sign in KEYPAD_SIGNS.items()}
    signs |= {usage: [sign] for usage, sign in NUMBERS.items()}
    return {"set_to": None, "signs": signs, "locked": locked, "thirds": [], "dead": {}}


def _of_layout(layout: HostLayout, strokes: list[KeyStroke]) -> dict[str, Any]:
    usages = sorted({stroke.usage for stroke in strokes} - {0})
    thirds = _thirds(layout, strokes)
    signs = _marks(layout, usages, 2 if not thirds else LEVELS, caps=False)
    locked: Marks = {}
    if CAPS_LOCK in usages:
        locked = _marks(layout, usages, 2 if not thirds else LEVELS, caps=True)
    return {
        "set_to": set_to(layout),
        "signs": signs,
        "locked": {usage: marks for usage, marks in locked.items() if marks != signs[usage]},
        "thirds": thirds,
        "dead": _pairs(
            layout, {mark for of in (signs, locked) for key in of.values() for mark in key}
        ),
    }


def _thirds(layout: HostLayout, strokes: list[KeyStroke]) -> list[int]:
    """Return which modifiers beside Shift choose the third level, if the keyboard has them."""
    held = 0
    for stroke in strokes:
        held |= stroke.modifiers
    return [one for one in range(0x100) if not one & ~held and level_of(one, layout.system) == 2]


def _marks(layout: HostLayout, usages: list[int], levels: int, *, caps: bool) -> Marks:
    found = {}
    for usage in usages:
        marks = [layout.mark(usage, level, caps) for level in range(levels)]
        if any(marks):
            found[usage] = marks
    return found


def _pairs(layout: HostLayout, marks: set[str | None]) -> dict[str, dict[str, str]]:
    """Return what each dead key and each mark write, where they write anything."""
    known = sorted(mark for mark in marks if mark)
    return {
        dead: {after: text for after in known if (text := layout.pair(dead, after))}
        for dead in known
        if is_dead_mark(dead)
    }


def _strokes(keyboard: Keyboard) -> Iterator[KeyStroke]:
    """Yield every press that the keyboard may make."""
    for action in keyboard.every_action:
        match action:
            case Press(usage, modifiers):
                yield KeyStroke(usage, modifiers)
            case OnceModifiers(modifiers):
                yield KeyStroke(0, modifiers)
            case InTurn():
                yield from (move for move in action.moves if not isinstance(move, Pause))
            case _:
                pass
