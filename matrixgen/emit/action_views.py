"""Actions and layers as the firmware's tables number them."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.emit.action_rows import ActionRow, Numbers, row_of
from matrixgen.emit.together_view import KIND, row_comments, sets_in_order
from matrixgen.emit.turn_view import turn_places
from matrixgen.emit.with_view import with_places
from matrixgen.model import Action, FirstSecond, Keyboard, Media, TapHold, with_parts
from matrixgen.model.bases import bases_of
from matrixgen.record import Record

SEE_THROUGH = 0
"""The action number of a cell that lets the layer below show."""


class ActionView(Record):
    """One row of the action table; `comment` is for a person."""

    number: int
    row: ActionRow
    comment: str


class LayerView(Record):
    """One layer: an action number and the file's word for each key, in plate order."""

    number: int
    name: str
    cells: tuple[int, ...]
    words: tuple[str, ...]


def number_actions(keyboard: Keyboard) -> dict[Action, int]:
    """Return a number from 1 for each distinct action, by layer and then in plate order.

    Knobs come after the plate. The parts of an action come where it would come, and what has two
    parts after all that has none: what a key can be doing is then a range of numbers, which the
    firmware's proof can reason with. Rows for keys that go down together come between.
    """
    names = keyboard.turned_or_pressed
    cells = (layer.action_of(name) for layer in keyboard.layers for name in names)
    sets = (one.action for _, one in sets_in_order(keyboard))
    every = dict.fromkeys(part for one in (*cells, *sets) if one for part in with_parts(one))
    decided = [action for action in every if not isinstance(action, TapHold)]
    open_ones = [action for action in every if isinstance(action, TapHold)]
    after = 1 + len(decided) + len(row_comments(keyboard))
    numbers = {action: number for number, action in enumerate(decided, 1)}
    return numbers | {action: number for number, action in enumerate(open_ones, after)}


def first_together(numbers: Mapping[Action, int]) -> int:
    """Return the number of the first row of the action table that is for keys together."""
    decided = (number for action, number in numbers.items() if not isinstance(action, TapHold))
    return max(decided, default=0) + 1


def all_numbers(
    keyboard: Keyboard, actions: dict[Action, int], media: Mapping[Media, int]
) -> Numbers:
    """Return what else the firmware numbers, given the numbers of the actions and media keys."""
    tap_holds = [action for action in actions if isinstance(action, TapHold)]
    first_seconds = [action for action in actions if isinstance(action, FirstSecond)]
    return Numbers(
        layers={layer.name.text: number for number, layer in enumerate(keyboard.layers)},
        bases={name: place for place, name in enumerate(bases_of(keyboard))},
        tap_holds={action: place for place, action in enumerate(tap_holds)},
        first_seconds={action: place for place, action in enumerate(first_seconds)},
        media=media,
        turns=turn_places(actions),
        withs=with_places(actions),
    )


def action_views(
    keyboard: Keyboard, numbers: dict[Action, int], media: Mapping[Media, int]
) -> tuple[ActionView, ...]:
    """Return the action table's rows; a comment has the first word that stands for the action."""
    others = all_numbers(keyboard, numbers, media)
    comments: dict[Action, str] = {}
    names = {named.name.text for named in keyboard.actions}
    for layer in keyboard.layers:
        for cell in layer.every_cell:
            word = cell.written.text
            comment = f"{word} = {cell.action.phrase}" if word in names else word
            comments.setdefault(cell.action, comment)
    rows = [
        ActionView(number, row_of(action, others), comments.get(action, action.phrase))
        for action, number in numbers.items()
    ]
    first = first_together(numbers)
    rows += [
        ActionView(first + place, ActionRow(KIND, place), comment)
        for place, comment in enumerate(row_comments(keyboard))
    ]
    return tuple(sorted(rows, key=lambda row: row.number))


def layer_views(keyboard: Keyboard, numbers: dict[Action, int]) -> tuple[LayerView, ...]:
    """Return the layers, base first, each with a cell for every key."""
    views = []
    for number, layer in enumerate(keyboard.layers):
        row = [layer.by_key.get(name) for name in keyboard.turned_or_pressed]
        views.append(
            LayerView(
                number,
                layer.name.text,
                tuple(numbers[cell.action] if cell else SEE_THROUGH for cell in row),
                tuple(cell.written.text if cell else "~" for cell in row),
            )
        )
    return tuple(views)
