"""Keys that are one action, as the firmware has them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matrixgen.model import Action, Keyboard, Together
from matrixgen.record import Record

KIND = "ACTION_TOGETHER"
"""The kind of the rows for keys that went down together."""

MOST_KEYS = 4
"""`TOGETHER_KEYS` of `tables.h`."""


class TogetherRow(Record, kw_only=True):
    """A set of keys, by their numbers: its layer, its action's number, its time."""

    action: int
    layer: int
    within_ms: int
    keys: tuple[int, ...]
    comment: str

    @property
    def size(self) -> int:
        """How many keys it has."""
        return len(self.keys)

    @property
    def padded(self) -> tuple[str, ...]:
        """Its keys as they stand in the table."""
        none = ["NO_KEY"] * (MOST_KEYS - len(self.keys))
        return (*map(str, self.keys), *none)


class TogetherView(Record):
    """All sets; `first` is the number of the first one's row of the action table."""

    rows: tuple[TogetherRow, ...]
    first: int


def sets_in_order(keyboard: Keyboard) -> tuple[tuple[int, Together], ...]:
    """Return each set with its layer's number, by layer and then by its keys on the plate."""
    return tuple(
        (number, one)
        for number, layer in enumerate(keyboard.layers)
        for one in sorted(layer.together, key=lambda one: key_numbers(keyboard, one))
    )


def key_numbers(keyboard: Keyboard, one: Together) -> tuple[int, ...]:
    """Return the keys of a set by their numbers, which are those of the plate's order."""
    place_of = keyboard.place_of_key
    return tuple(sorted(place_of[key] for key in one.key_names))


def row_comments(keyboard: Keyboard) -> Sequence[str]:
    """Return what each row of the action table is for that is for keys that went down together.

    There is one for each set, and one for all keys of a set whose action is over.
    """
    sets = [f"a key of {_called(keyboard, one)}" for _, one in sets_in_order(keyboard)]
    return [*sets, "a key of a set that is over"] if sets else []


def together_view(keyboard: Keyboard, numbers: Mapping[Action, int], first: int) -> TogetherView:
    """Return the sets of a keyboard, its actions having these numbers."""
    rows = (
        TogetherRow(
            action=numbers[one.action],
            layer=number,
            within_ms=one.within_ms,
            keys=key_numbers(keyboard, one),
            comment=f"{_called(keyboard, one)} = {one.written}",
        )
        for number, one in sets_in_order(keyboard)
    )
    return TogetherView(tuple(rows), first)


def _called(keyboard: Keyboard, one: Together) -> str:
    return " ".join(keyboard.keys[number].name.text for number in key_numbers(keyboard, one))
