"""The way into the boot loader."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import StartBootLoader

KIND = "ACTION_BOOT_LOADER"


def row(action: StartBootLoader, numbers: Numbers) -> Row:
    """Return the row, which has nothing to say but its kind."""
    return Row(KIND)
