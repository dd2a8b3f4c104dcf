"""Behaviours as rows of the firmware's action table, one file each."""

from __future__ import annotations

from typing import assert_never

from matrixgen.emit.behaviours import (
    change_base,
    hold_layer,
    latch_layer,
    media,
    nothing,
    once_layer,
    once_modifiers,
    press,
    start_boot_loader,
    tap_hold,
)
from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import (
    Action,
    ChangeBase,
    HoldLayer,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Press,
    StartBootLoader,
    TapHold,
)

__all__ = ["Numbers", "Row", "row_of"]


def row_of(action: Action, numbers: Numbers) -> Row:
    """Return an action's row of the table."""
    match action:
        case Press():
            return press.row(action, numbers)
        case Media():
            return media.row(action, numbers)
        case HoldLayer():
            return hold_layer.row(action, numbers)
        case LatchLayer():
            return latch_layer.row(action, numbers)
        case OnceLayer():
            return once_layer.row(action, numbers)
        case OnceModifiers():
            return once_modifiers.row(action, numbers)
        case ChangeBase():
            return change_base.row(action, numbers)
        case TapHold():
            return tap_hold.row(action, numbers)
        case Nothing():
            return nothing.row(action, numbers)
        case StartBootLoader():
            return start_boot_loader.row(action, numbers)
        case _:
            assert_never(action)
