"""Actions and layers as the firmware's tables number them."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.model import (
    Action,
    HoldLayer,
    Keyboard,
    LatchLayer,
    Nothing,
    Press,
    StartBootLoader,
)

SEE_THROUGH = 0
"""The action number of a cell that lets the layer below show."""


@dataclass(frozen=True, slots=True)
class ActionView:
    """One row of the action table; `comment` is for a person."""

    number: int
    kind: str
    first: int
    second: int
    comment: str


@dataclass(frozen=True, slots=True)
class LayerView:
    """One layer: an action number and the file's word for each key, in plate order."""

    number: int
    name: str
    cells: tuple[int, ...]
    words: tuple[str, ...]


def number_actions(keyboard: Keyboard) -> dict[Action, int]:
    """Return a number from 1 for each distinct action, by layer and then in plate order."""
    numbers: dict[Action, int] = {}
    for layer in keyboard.layers:
        cells = {cell.key.text: cell.action for cell in layer.cells}
        for key in keyboard.keys:
            if key.name.text in cells:
                numbers.setdefault(cells[key.name.text], len(numbers) + 1)
    return numbers


def action_views(keyboard: Keyboard, numbers: dict[Action, int]) -> tuple[ActionView, ...]:
    """Return the action table's rows; a comment has the first word that stands for the action."""
    layer_of = {layer.name.text: number for number, layer in enumerate(keyboard.layers)}
    words: dict[Action, str] = {}
    for layer in keyboard.layers:
        for cell in layer.cells:
            words.setdefault(cell.action, cell.cell.text)
    return tuple(
        ActionView(number, *_fields(action, layer_of), comment=_comment(action, words[action]))
        for action, number in numbers.items()
    )


def _fields(action: Action, layer_of: dict[str, int]) -> tuple[str, int, int]:
    """Return an action's kind, first and second byte, as `tables.h` describes them."""
    match action:
        case Press(usage, modifiers):
            return "ACTION_PRESS", usage, modifiers
        case HoldLayer(layer):
            return "ACTION_HOLD_LAYER", layer_of[layer], 0
        case LatchLayer(layer):
            return "ACTION_LATCH_LAYER", layer_of[layer], 0
        case Nothing():
            return "ACTION_NOTHING", 0, 0
        case StartBootLoader():
            return "ACTION_BOOT_LOADER", 0, 0


def _comment(action: Action, word: str) -> str:
    match action:
        case HoldLayer(layer):
            return f"{word} = hold layer {layer}"
        case LatchLayer(layer):
            return f"{word} = latch layer {layer}"
        case Nothing():
            return f"{word} = nothing" if word != "nothing" else word
        case StartBootLoader():
            return f"{word} = start boot loader"
    return word


def layer_views(keyboard: Keyboard, numbers: dict[Action, int]) -> tuple[LayerView, ...]:
    """Return the layers, base first, each with a cell for every key."""
    views = []
    for number, layer in enumerate(keyboard.layers):
        cells = {cell.key.text: cell for cell in layer.cells}
        row = [cells.get(key.name.text) for key in keyboard.keys]
        views.append(
            LayerView(
                number,
                layer.name.text,
                tuple(numbers[cell.action] if cell else SEE_THROUGH for cell in row),
                tuple(cell.cell.text if cell else "~" for cell in row),
            )
        )
    return tuple(views)
