"""A key with two meanings."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import TapHold

KIND = "ACTION_TAP_HOLD"


def row(action: TapHold, numbers: Numbers) -> Row:
    """Return the row: its place in the table of these."""
    return Row(KIND, numbers.tap_holds[action])
