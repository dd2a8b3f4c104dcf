"""Whether a file may be written over: only what this program made is."""

from __future__ import annotations

from pathlib import Path

from matrixgen.model.reason import reason_of

MARKS = (b'<meta name="generator" content="matrixgen', b"<!-- made by matrixgen")
"""What each file that this program draws has near its beginning."""

BEGINNINGS = (b"999\nmade by matrixgen\n", b"made by matrixgen: ")
"""Or how it begins: DXF has a comment there, and STL its title."""

BEGINNING = 500


def why_not_ours(path: Path) -> str | None:
    """Return why a file must not be written over; None where it is ours, or not there."""
    if not path.exists():
        return None
    if path.is_dir():
        return "is a folder"
    if not path.is_file():
        return "is not a regular file"
    try:
        with path.open("rb") as file:
            beginning = file.read(BEGINNING)
    except OSError as error:
        return f"cannot be read: {reason_of(error)}"
    if beginning.startswith(BEGINNINGS) or any(mark in beginning for mark in MARKS):
        return None
    return "is there already, and this program did not write it"
