"""Git's own merge of three files, line by line."""

from __future__ import annotations

from pathlib import Path

from matrixgen.git.program import run_git
from matrixgen.record import Record

MOST_CONFLICTS = 127
"""The exit status is the number of conflicts, up to here; beyond, git failed."""


class TextMerge(Record):
    """The merged bytes, and how many conflicts are left in them."""

    data: bytes
    conflicts: int


def text_merge(base: Path, ours: Path, theirs: Path) -> TextMerge:
    """Return what `git merge-file` makes of three files; it changes none of them."""
    files = map(str, (ours, base, theirs))
    labels = ("-L", "ours", "-L", "base", "-L", "theirs")
    ran = run_git("merge-file", "-p", "-q", *labels, "--", *files, most=MOST_CONFLICTS)
    return TextMerge(ran.out, ran.status)
