"""Which key of a plate types what: by its own name, or else by the base layer."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Action, Cell, FirstSecond, Keyboard, Press, WithModifier
from matrixgen.record import Record
from matrixgen.usages import word_of
from matrixgen.usages.key_stroke import KeyStroke


class KeysThatType(Record):
    """The first key of the plate for each usage, each stroke, and each modifier by its bit.

    Keys of strokes have modifiers in their own cell of the base layer. Those of modifiers have
    nothing else in their name.
    """

    of_usage: dict[int, str]
    of_stroke: dict[KeyStroke, str]
    modifiers: dict[int, str]


def keys_that_type(keyboard: Keyboard) -> KeysThatType:
    """Return what types on a plate; names of keys come before the base layer.

    Keys of strokes count where the file names the computer's layout.
    """
    strokes = _of_strokes(keyboard) if keyboard.computer else {}
    return KeysThatType(_of_usages(keyboard), strokes, _of_modifiers(keyboard))


def _of_usages(keyboard: Keyboard) -> dict[int, str]:
    found: dict[int, str] = {}
    for key in keyboard.keys:
        if key.own_action:
            for usage in key.own_action.sends:
                found.setdefault(usage, key.name.text)
    for cell in _cells_of_keys(keyboard):
        for part in _by_itself(cell.action):
            for usage in part.sends:
                if part.phrase == word_of(usage):
                    found.setdefault(usage, cell.key.text)
    return found


def _by_itself(action: Action) -> Iterator[Action]:
    """Yield an action and its parts, but for those that ask for a modifier or another press."""
    yield action
    asks = isinstance(action, WithModifier | FirstSecond)
    for part in action.parts[:1] if asks else action.parts:
        yield from _by_itself(part)


def _of_strokes(keyboard: Keyboard) -> dict[KeyStroke, str]:
    found: dict[KeyStroke, str] = {}
    for cell in _cells_of_keys(keyboard):
        match cell.action:
            case Press(usage, modifiers) if usage and modifiers:
                found.setdefault(KeyStroke(usage, modifiers), cell.key.text)
            case _:
                pass
    return found


def _of_modifiers(keyboard: Keyboard) -> dict[int, str]:
    found: dict[int, str] = {}
    for key in keyboard.keys:
        match key.own_action:
            case Press(0, modifiers):
                found.setdefault(modifiers, key.name.text)
            case _:
                pass
    return found


def _cells_of_keys(keyboard: Keyboard) -> list[Cell]:
    """Return the cells of the base layer, without those of knobs, which no finger presses."""
    keys = {key.name.text for key in keyboard.keys}
    return [cell for cell in keyboard.layers[0].cells if cell.key.text in keys]
