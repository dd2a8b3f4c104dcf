"""Delivering one drawing: to a file of ours, or to standard output."""

from __future__ import annotations

import sys
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.ours import why_not_ours
from matrixgen.cli.write_file import write_bytes

STANDARD_OUTPUT = "-"


def deliver(out: str | None, usual: str, content: bytes, summary: str) -> int:
    """Write a drawing to where `out` says, or to its `usual` name; return the exit status.

    What it shows is printed, unless the drawing itself is. Somebody else's file is never written
    over.
    """
    if out == STANDARD_OUTPUT:
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        return FINE
    path = Path(out or usual)
    if reason := why_not_ours(path):
        return complain(f"`{path}` {reason}", "name another one with -o")
    if reason := write_bytes(path, content):
        return complain(f"`{path}` cannot be written: {reason}", "name another one with -o")
    print(f"{clean(str(path))}: {len(content) / 1000:.0f} kB")
    print(summary)
    return FINE
