"""Usages and modifiers."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import LayerNumbers, Row
from matrixgen.model import Press

KIND = "ACTION_PRESS"


def row(action: Press, layers: LayerNumbers) -> Row:
    """Return the row: the usage, then the modifiers' bits."""
    return Row(KIND, action.usage, action.modifiers, in_hex=True)
