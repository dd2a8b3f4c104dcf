"""Delivering drawings: to files of ours, or one to standard output."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from matrixgen.cli.complain import FINE
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.ours import why_not_ours
from matrixgen.cli.write_file import STANDARD_OUTPUT, put_out, write_bytes
from matrixgen.failure import Failure

ELSEWHERE = "name another one with -o"


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
