"""Actions as rows of the firmware's action table."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, assert_never

from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    InTurn,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Press,
    StartBootLoader,
    TapHold,
    UnlatchLayers,
    WithModifier,
)
from matrixgen.record import Record

_NONE: Mapping[Any, int] = MappingProxyType({})


class Numbers(Record):
    """The firmware's numbers of layers and bases by names, keys with two meanings, media keys.

    `turns` is where what is typed in turn begins in its table, `withs` where the rows begin of what
    goes by modifiers.
    """

    layers: Mapping[str, int] = _NONE
    bases: Mapping[str, int] = _NONE
    tap_holds: Mapping[TapHold, int] = _NONE
    first_seconds: Mapping[FirstSecond, int] = _NONE
    media: Mapping[Media, int] = _NONE
    turns: Mapping[InTurn, int] = _NONE
    withs: Mapping[WithModifier, int] = _NONE


class ActionRow(Record):
    """An action as `tables.h` describes it: its kind, and 16 bits whose meaning the kind gives.

    `in_hex` is whether a person reads them best in hexadecimal.
    """

    kind: str
    operand: int = 0
    in_hex: bool = False

    @property
    def operand_text(self) -> str:
        """The operand as it stands in the table."""
        return f"0x{self.operand:04X}" if self.in_hex else str(self.operand)


FIRST_WAY = 8
"""The number of the first way of the first axis; those of the buttons come before it."""


def pointer_number(action: Pointer) -> int:
    """Return a key's number among the pointer's: see `pointer_report.h`."""
    if action.is_button:
        return action.usage
    return FIRST_WAY + 2 * action.axis + (action.way > 0)


def row_of(action: Action, numbers: Numbers) -> ActionRow:
    """Return an action's row of the table: its kind is called as the behaviour's module."""
    kind = f"ACTION_{type(action).__module__.rpartition('.')[2].upper()}"
    match action:
        case Press():
            return ActionRow(kind, action.modifiers << 8 | action.usage, in_hex=True)
        case OnceModifiers():
            return ActionRow(kind, action.modifiers << 8, in_hex=True)
        case ChangeBase():
            number = numbers.layers[action.layer] | numbers.bases[action.layer] << 8
            return ActionRow(kind, number, in_hex=True)
        case HoldLayer() | LatchLayer() | OnceLayer():
            return ActionRow(kind, numbers.layers[action.layer])
        case Media():
            return ActionRow(kind, numbers.media[action])
        case Pointer():
            return ActionRow(kind, pointer_number(action))
        case InTurn():
            return ActionRow(kind, numbers.turns[action])
        case FirstSecond():
            return ActionRow(kind, numbers.first_seconds[action])
        case WithModifier():
            return ActionRow(kind, numbers.withs[action])
        case TapHold():
            return ActionRow(kind, numbers.tap_holds[action])
        case Nothing() | StartBootLoader() | UnlatchLayers():
            return ActionRow(kind)
        case _:
            assert_never(action)
