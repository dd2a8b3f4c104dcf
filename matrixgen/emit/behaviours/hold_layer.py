"""A layer that is on while a key is down."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import LayerNumbers, Row
from matrixgen.model import HoldLayer

KIND = "ACTION_HOLD_LAYER"


def row(action: HoldLayer, layers: LayerNumbers) -> Row:
    """Return the row: the layer's number."""
    return Row(KIND, layers[action.layer])
