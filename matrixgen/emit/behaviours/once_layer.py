"""A layer for the next key only."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import OnceLayer

KIND = "ACTION_ONCE_LAYER"


def row(action: OnceLayer, numbers: Numbers) -> Row:
    """Return the row: the layer's number."""
    return Row(KIND, numbers.layers[action.layer])
