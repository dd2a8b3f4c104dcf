"""Usages and modifiers."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import Press

KIND = "ACTION_PRESS"


def row(action: Press, numbers: Numbers) -> Row:
    """Return the row: the usage, and above it the modifiers' bits."""
    return Row(KIND, action.modifiers << 8 | action.usage, in_hex=True)
