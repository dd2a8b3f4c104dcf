"""Another layer at the bottom, for good."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import ChangeBase

KIND = "ACTION_CHANGE_BASE"


def row(action: ChangeBase, numbers: Numbers) -> Row:
    """Return the row: the layer's number."""
    return Row(KIND, numbers.layers[action.layer])
