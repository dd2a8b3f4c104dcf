"""A layer that a press turns on or off."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import LatchLayer

KIND = "ACTION_LATCH_LAYER"


def row(action: LatchLayer, numbers: Numbers) -> Row:
    """Return the row: the layer's number."""
    return Row(KIND, numbers.layers[action.layer])
