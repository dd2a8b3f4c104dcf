"""Media keys."""

from __future__ import annotations

from matrixgen.emit.behaviours.row import Numbers, Row
from matrixgen.model import Media

KIND = "ACTION_MEDIA"


def row(action: Media, numbers: Numbers) -> Row:
    """Return the row: the key's number."""
    return Row(KIND, numbers.media[action])
