"""Modifiers for the next key only."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import OnceModifiers

KIND = "ACTION_ONCE_MODIFIERS"


def row(action: OnceModifiers, numbers: Numbers) -> Row:
    """Return the row: the modifiers' bits in the high byte."""
    return Row(KIND, action.modifiers << 8, in_hex=True)
