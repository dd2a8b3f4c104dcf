"""What keys type one thing after the other, as the firmware has it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from matrixgen.model import Action, InTurn, Keyboard, Pause
from matrixgen.record import Record

WAIT, TEXT, WAIT_MS = 0x01, 0x02, 10
"""`TURN_WAIT`, `TURN_TEXT` and `TURN_WAIT_MS` of `tables.h`."""

END = (0, 0)

STROKE_BYTES = 2
"""Of flash, for each row of the table: a usage and modifiers."""

StrokeRow = tuple[int, int]
"""A usage and modifiers, a byte each."""


class TurnRow(Record):
    """What one action types: where it begins in the table, its rows, its phrase."""

    place: int
    strokes: tuple[StrokeRow, ...]
    comment: str


class TurnView(Record):
    """What all actions type, and how many milliseconds each report lasts at least."""

    rows: tuple[TurnRow, ...]
    pace_ms: int

    @property
    def length(self) -> int:
        """How many rows the table has."""
        return sum(len(one.strokes) for one in self.rows)


def turn_view(keyboard: Keyboard, numbers: Mapping[Action, int]) -> TurnView:
    """Return what a keyboard's actions type in turn, in the order of their numbers."""
    return TurnView(tuple(_rows(numbers).values()), keyboard.effective.pace_ms)


def stroke_bytes(keyboard: Keyboard) -> int:
    """Return how many bytes of flash the table of what a keyboard types in turn takes."""
    turns = (action for action in keyboard.every_action if isinstance(action, InTurn))
    return sum(STROKE_BYTES * len(list(_strokes(action))) for action in turns)


def turn_places(numbers: Mapping[Action, int]) -> dict[InTurn, int]:
    """Return where what each action types begins in the table."""
    return {action: row.place for action, row in _rows(numbers).items()}


def _rows(actions: Iterable[Action]) -> dict[InTurn, TurnRow]:
    rows: dict[InTurn, TurnRow] = {}
    place = 0
    for action in actions:
        if isinstance(action, InTurn):
            rows[action] = row = TurnRow(place, tuple(_strokes(action)), action.phrase)
            place += len(row.strokes)
    return rows


def _strokes(action: InTurn) -> Iterator[StrokeRow]:
    if action.types_text:
        yield TEXT, 0
    for move in action.moves:
        if isinstance(move, Pause):
            yield WAIT, move.ms // WAIT_MS
        else:
            yield move.usage, move.modifiers
    yield END
