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
    return tuple(_by_action(numbers).values())


def with_places(numbers: Mapping[Action, int]) -> dict[WithModifier, int]:
    """Return where the rows of each action begin."""
    return {action: one.place for action, one in _by_action(numbers).items()}


def _by_action(numbers: Mapping[Action, int]) -> dict[WithModifier, WithRows]:
    found: dict[WithModifier, WithRows] = {}
    place = 0
    for action in numbers:
        if isinstance(action, WithModifier):
            found[action] = made = WithRows(place, tuple(_rows(action, numbers)), action.phrase)
            place += len(made.rows)
    return found


def _rows(action: WithModifier, numbers: Mapping[Action, int]) -> Iterator[WithRow]:
    for one in action.in_order:
        yield WithRow(one.modifiers, numbers[one.action], f"with {one.words} {one.action.phrase}")
    yield WithRow(0, numbers[action.plain], action.plain.phrase)
