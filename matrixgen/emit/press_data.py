"""What the script of a page's live keyboard has to know: see `templates/sheet/press/engine.js`.

Words for usages, what the computer types, and which of the board's keys a computer's own key
stands for are written here, so that the script has no table of its own.
"""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator
from typing import Any

from matrixgen.behaviour.media_reports import PAGES
from matrixgen.computer.setting import key_words, layout_of
from matrixgen.emit.light_views import by_name
from matrixgen.emit.media_view import media_table
from matrixgen.emit.outside_text import seen
from matrixgen.emit.typing_data import typing_data
from matrixgen.model import (
    Action,
    FirstSecond,
    Keyboard,
    OnceModifiers,
    Pointer,
    Press,
    TapHold,
    WithModifier,
    matrix_of,
)
from matrixgen.toolchain.web_engine import NoEngine
from matrixgen.usages import FIRST_MODIFIER, modifier_names, usages
from matrixgen.usages.browser_codes import CODES
from matrixgen.usages.media import media_word

FORMAT = 3


def press_data(keyboard: Keyboard, engine: bytes | NoEngine) -> dict[str, Any]:
    """Return what the script gets, as JSON has it: a keyboard, its engine or why it has none."""
    word = key_words(layout_of(keyboard))
    return {
        "format": FORMAT,
        "keyboard": seen(keyboard.identity.product),
        **_engine(engine),
        "keys": _keys(keyboard),
        **_knobs(keyboard),
        "layers": [layer.name.text for layer in keyboard.layers],
        "lights": [light.name.text for light in by_name(keyboard.wiring.lights)],
        "words": {str(usage): word(usage) for usage in usages()},
        "modifiers": [modifier_names(1 << bit)[0] for bit in range(8)],
        "media": _media(keyboard),
        "pointer": keyboard.has(Pointer),
        "types": typing_data(keyboard),
        "computer": _computer_keys(keyboard),
    }


def _engine(engine: bytes | NoEngine) -> dict[str, str | None]:
    if isinstance(engine, NoEngine):
        return {"engine": None, "reason": engine.reason}
    return {"engine": base64.b64encode(engine).decode("ascii"), "reason": None}


def script_json(data: dict[str, Any]) -> str:
    """Return it as text that may stand in a script element: nothing in it can end the element."""
    return json.dumps(data, ensure_ascii=True, separators=(",", ":")).replace("<", "\\u003c")


def _keys(keyboard: Keyboard) -> list[dict[str, Any]]:
    """Return the keys in plate order, each with the place of its two lines if it has both."""
    at = {one.key: [one.drive, one.sense] for one in matrix_of(keyboard).contacts}
    names = (key.name.text for key in keyboard.keys)
    return [{"name": name, "crossing": at.get(name)} for name in names]


def _knobs(keyboard: Keyboard) -> dict[str, list[dict[str, Any]]]:
    """Return the knobs in the order of their numbers; nothing where there is none."""
    knobs = [{"name": seen(one.name.text), "states": one.states} for one in keyboard.knobs]
    return {"knobs": knobs} if knobs else {}


def _media(keyboard: Keyboard) -> dict[str, list[str]]:
    """Return the words of each report of media keys, by its number, bit by bit."""
    return {
        str(view.report): [media_word(PAGES[view.report], key.usage) for key in view.keys]
        for view in media_table(keyboard).reports
    }


def _computer_keys(keyboard: Keyboard) -> dict[str, str]:
    """Return the board's key for each key of the computer's own keyboard that it has one for."""
    keys = _keys_by_usage(keyboard)
    return {code: keys[usage] for code, usage in CODES.items() if usage in keys}


def _keys_by_usage(keyboard: Keyboard) -> dict[int, str]:
    """Return the first key that has a usage on the base layer: plainly, else tapped, else held."""
    actions = {cell.key.text: cell.action for cell in keyboard.layers[0].cells}
    found: dict[int, str] = {}
    for way in (_plainly, _tapped, _held):
        for key in keyboard.keys:
            action = actions.get(key.name.text)
            for usage in way(action) if action else ():
                found.setdefault(usage, key.name.text)
    return found


def _plainly(action: Action) -> Iterator[int]:
    """Yield the usage of an action that sends it and nothing else, be it a modifier's."""
    match action:
        case Press(usage, 0) if usage:
            yield usage
        case Press(0, modifiers) | OnceModifiers(modifiers) if modifiers.bit_count() == 1:
            yield FIRST_MODIFIER + modifiers.bit_length() - 1
        case WithModifier(first) | FirstSecond(first):
            yield from _plainly(first)
        case _:
            return


def _tapped(action: Action) -> Iterator[int]:
    if isinstance(action, TapHold):
        yield from _plainly(action.tap)


def _held(action: Action) -> Iterator[int]:
    if isinstance(action, TapHold):
        yield from _plainly(action.hold)
