"""Another layer at the bottom, for good."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import ChangeBase

KIND = "ACTION_CHANGE_BASE"


def row(action: ChangeBase, numbers: Numbers) -> Row:
    """Return the row: the layer's number, and its number among the bases."""
    number = numbers.layers[action.layer] | numbers.bases[action.layer] << 8
    return Row(KIND, number, in_hex=True)
