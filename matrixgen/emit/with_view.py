"""What keys do while modifiers are down, as the firmware has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.model import Action, WithModifier
from matrixgen.record import Record


class WithRow(Record):
    """A row of the table: modifiers, and the number of the action that is done with them."""

    modifiers: int
    does: int
    comment: str


class WithRows(Record):
    """Those of one action: where they begin in the table, and its phrase."""

    place: int
    rows: tuple[WithRow, ...]
    comment: str


def with_views(numbers: Mapping[Action, int]) -> tuple[WithRows, ...]:
    """Return the rows of all actions that have such numbers, in their order."""
    found: list[WithRows] = []
    for action in numbers:
        if isinstance(action, WithModifier):
            place = found[-1].place + len(found[-1].rows) if found else 0
            found.append(WithRows(place, tuple(_rows(action, numbers)), action.phrase))
    return tuple(found)


def with_places(numbers: Mapping[Action, int]) -> dict[WithModifier, int]:
    """Return where the rows of each action begin."""
    actions = (action for action in numbers if isinstance(action, WithModifier))
    rows = with_views(numbers)
    return {action: one.place for action, one in zip(actions, rows, strict=True)}


def _rows(action: WithModifier, numbers: Mapping[Action, int]) -> Iterator[WithRow]:
    for one in action.in_order:
        yield WithRow(one.modifiers, numbers[one.action], f"with {one.words} {one.action.phrase}")
    yield WithRow(0, numbers[action.plain], action.plain.phrase)
