"""A key that is dead on purpose."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import Nothing

KIND = "ACTION_NOTHING"


def row(action: Nothing, numbers: Numbers) -> Row:
    """Return the row, which has nothing to say but its kind."""
    return Row(KIND)
