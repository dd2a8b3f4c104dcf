"""Changing a user's file: whole or not at all, and telling what was changed."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path

from matrixgen.cli.fit_to_print import clean
from matrixgen.model import SourceText
from matrixgen.model.reason import reason_of


def changed_lines(before: SourceText, after: SourceText) -> Iterator[str]:
    """Yield the lines that are no longer there after a `-`, and the new ones after a `+`."""
    diff = list(unified_diff(before.lines, after.lines, lineterm="", n=0))
    yield from (f"  {clean(line)}" for line in diff[2:] if not line.startswith("@@"))


def write_file(path: Path, text: str) -> str | None:
    """Write a file whole or not at all; return why it could not be written, or None.

    A link stays a link, and the file keeps its mode; one that nobody may write to is not replaced.
    """
    return write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, data: bytes) -> str | None:
    """Write a file whole or not at all, whatever is in it; see `write_file`."""
    path = path.resolve()
    try:
        mode = _mode(path)
        if not mode & 0o222:
            return "it is read-only"
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
        aside = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            aside.chmod(mode)
            aside.replace(path)
        finally:
            aside.unlink(missing_ok=True)
    except OSError as error:
        return reason_of(error)
    return None


def _mode(path: Path) -> int:
    """Return the mode of a file; of one that is not there yet, that of any new file."""
    if path.exists():
        return path.stat().st_mode & 0o7777
    mask = os.umask(0)  # it can only be read by setting it
    os.umask(mask)
    return 0o666 & ~mask
