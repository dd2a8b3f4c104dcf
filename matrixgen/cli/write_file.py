"""Changing a user's file, whole or not at all, and telling what was changed; standard output."""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path

from matrixgen.cli.fit_to_print import clean
from matrixgen.failure import Failure
from matrixgen.model import SourceText
from matrixgen.model.reason import reason_of
from matrixgen.reading import Refused

STANDARD_OUTPUT = "-"

CHANGED_MEANWHILE = "another program changed it meanwhile, so run the command again"


def changed_lines(before: SourceText, after: SourceText) -> Iterator[str]:
    """Yield the lines that are no longer there after a `-`, and the new ones after a `+`."""
    diff = list(unified_diff(before.lines, after.lines, lineterm="", n=0))
    yield from (f"  {clean(line)}" for line in diff[2:] if not line.startswith("@@"))


def put_out(data: bytes) -> None:
    """Write what is no text of ours to standard output, after what was printed there."""
    sys.stdout.flush()
    sys.stdout.buffer.write(data)


def rewrite_file(path: Path, source: SourceText, text: str) -> None:
    """Give a file another text than the one that was read of it; raises `Failure`.

    What somebody else wrote since then is not overwritten.
    """
    write_bytes(path, text.encode("utf-8"), before=source.original.encode("utf-8"))


def write_bytes(path: Path, data: bytes, *helps: str, before: bytes | None = None) -> None:
    """Write a file as `replace` does; raises `Failure`, which these help against."""
    try:
        replace(path, data, before)
    except OSError as error:
        raise Failure(f"`{path}` cannot be written: {reason_of(error)}", *helps) from error


def replace(path: Path, data: bytes, before: bytes | None) -> None:
    """Write a file whole or not at all; raises `OSError`.

    A link stays a link, and the file keeps its mode; one that nobody may write to is not replaced,
    nor is one that has something else in it than what was there `before`, where that is given.
    """
    path = path.resolve()
    mode = _mode(path)
    if not mode & 0o222:
        raise Refused("it is read-only")
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        aside.chmod(mode)
        if before is not None and path.read_bytes() != before:
            raise Refused(CHANGED_MEANWHILE)
        aside.replace(path)
    finally:
        aside.unlink(missing_ok=True)


def _mode(path: Path) -> int:
    """Return the mode of a file; of one that is not there yet, that of any new file."""
    if path.exists():
        return path.stat().st_mode & 0o7777
    mask = os.umask(0)  # it can only be read by setting it
    os.umask(mask)
    return 0o666 & ~mask
