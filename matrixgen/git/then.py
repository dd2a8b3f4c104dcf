"""A file as it was at a revision, or on a day, whatever it was called then."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.git.beside import read_each
from matrixgen.git.history import at, prefix_of, revisions_of
from matrixgen.git.program import commit_of, lines_of
from matrixgen.git.repository import no_revision
from matrixgen.record import Record


class Then(Record):
    """A file of a commit: its path from the top of the repository, and what is in it."""

    commit: str
    path: str
    data: bytes


def file_then(file: Path, since: str) -> Then:
    """Return what a file of the work tree was at a revision, or before a day, as YYYY-MM-DD."""
    commit = commit_of(since, *at(file)) or _before(file, since)
    if commit is None:
        raise no_revision(since, *at(file))
    paths = _paths(file, commit)
    found = zip(paths, read_each([f"{commit}:{path}" for path in paths], *at(file)), strict=True)
    for path, data in found:
        if data is not None:
            return Then(commit, path, data)
    help = "`matrixgen history FILE` lists its revisions"
    raise Failure(f"there is no `{file}` in `{since}`", help)


def _before(file: Path, since: str) -> str | None:
    """Return the latest commit before a day; None where there is none, or it is not a day."""
    try:
        eve = date.fromisoformat(since) - timedelta(days=1)
    except (ValueError, OverflowError):
        return None
    lines = lines_of(*at(file), "rev-list", "-1", f"--before={eve} 23:59:59", "HEAD")
    return lines[0] if lines else None


def _paths(file: Path, commit: str) -> list[str]:
    """Return what a file may have been called at a commit: its name now, then earlier ones."""
    prefix, later = prefix_of(file), revisions_of(file, commit)
    return list(dict.fromkeys([prefix + file.name, *(one.old_path for one in later)]))
