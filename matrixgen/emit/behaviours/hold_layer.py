"""A layer that is on while a key is down."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import HoldLayer

KIND = "ACTION_HOLD_LAYER"


def row(action: HoldLayer, numbers: Numbers) -> Row:
    """Return the row: the layer's number."""
    return Row(KIND, numbers.layers[action.layer])
