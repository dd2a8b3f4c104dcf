"""Actions and layers as the firmware's tables number them."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.emit.behaviours import Row, row_of
from matrixgen.model import Action, Keyboard

SEE_THROUGH = 0
"""The action number of a cell that lets the layer below show."""


@dataclass(frozen=True, slots=True)
class ActionView:
    """One row of the action table; `comment` is for a person."""

    number: int
    row: Row
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
        for key in keyboard.keys:
            action = layer.action_of(key.name.text)
            if action is not None:
                numbers.setdefault(action, len(numbers) + 1)
    return numbers


def action_views(keyboard: Keyboard, numbers: dict[Action, int]) -> tuple[ActionView, ...]:
    """Return the action table's rows; a comment has the first word that stands for the action."""
    layer_of = {layer.name.text: number for number, layer in enumerate(keyboard.layers)}
    comments: dict[Action, str] = {}
    names = {named.name.text for named in keyboard.actions}
    for layer in keyboard.layers:
        for cell in layer.cells:
            word = cell.written.text
            comment = f"{word} = {cell.action.phrase}" if word in names else word
            comments.setdefault(cell.action, comment)
    return tuple(
        ActionView(number, row_of(action, layer_of), comments[action])
        for action, number in numbers.items()
    )


def layer_views(keyboard: Keyboard, numbers: dict[Action, int]) -> tuple[LayerView, ...]:
    """Return the layers, base first, each with a cell for every key."""
    views = []
    for number, layer in enumerate(keyboard.layers):
        row = [layer.by_key.get(key.name.text) for key in keyboard.keys]
        views.append(
            LayerView(
                number,
                layer.name.text,
                tuple(numbers[cell.action] if cell else SEE_THROUGH for cell in row),
                tuple(cell.written.text if cell else "~" for cell in row),
            )
        )
    return tuple(views)
