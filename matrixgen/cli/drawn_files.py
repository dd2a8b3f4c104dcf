"""Delivering drawings: to files of ours, or one to standard output.

What is there is written over only if this program made it.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from matrixgen.cli.complain import FINE
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.write_file import STANDARD_OUTPUT, put_out, write_bytes
from matrixgen.failure import Failure
from matrixgen.model.reason import reason_of

ELSEWHERE = "name another one with -o"

MARKS = (b'<meta name="generator" content="matrixgen', b"<!-- made by matrixgen")
"""What each file that this program draws has near its beginning."""

BEGINNINGS = (b"999\nmade by matrixgen\n", b"made by matrixgen: ")
"""Or how it begins: DXF has a comment there, and STL its title."""

BEGINNING = 500


def deliver(out: str | None, usual: str, content: bytes, summary: str) -> int:
    """Write a drawing to where `out` says, or to its `usual` name; return the exit status."""
    if out == STANDARD_OUTPUT:
        put_out(content)
        return FINE
    return write_all({Path(out or usual): content}, summary)


def write_all(files: Mapping[Path, bytes], summary: str) -> int:
    """Write all files, unless one of them is somebody else's; return the exit status.

    How large each is is printed, and then the summary.
    """
    for path in files:
        if reason := why_not_ours(path):
            raise Failure(f"`{path}` {reason}", ELSEWHERE)
    for path, content in files.items():
        write_bytes(path, content, ELSEWHERE)
        print(f"{clean(str(path))}: {len(content) / 1000:.0f} kB")
    print(summary)
    return FINE


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
