"""Behaviours as rows of the firmware's action table, one file each."""

from __future__ import annotations

from typing import assert_never

from matrixgen.emit.behaviours import (
    hold_layer,
    latch_layer,
    nothing,
    press,
    start_boot_loader,
)
from matrixgen.emit.behaviours.row import LayerNumbers, Row
from matrixgen.model import Action, HoldLayer, LatchLayer, Nothing, Press, StartBootLoader

__all__ = ["LayerNumbers", "Row", "row_of"]


def row_of(action: Action, layers: LayerNumbers) -> Row:
    """Return an action's row of the table; `layers` has the firmware's number for each layer."""
    match action:
        case Press():
            return press.row(action, layers)
        case HoldLayer():
            return hold_layer.row(action, layers)
        case LatchLayer():
            return latch_layer.row(action, layers)
        case Nothing():
            return nothing.row(action, layers)
        case StartBootLoader():
            return start_boot_loader.row(action, layers)
        case _:
            assert_never(action)
