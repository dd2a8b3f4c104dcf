"""Commits that left a .keys file as it was, and changed a board or a diode that it names."""

from __future__ import annotations

import os
from collections.abc import Collection, Sequence
from pathlib import Path

from matrixgen.git.history import PLAIN_LOG, Revision, at, later_than, prefix_of
from matrixgen.git.program import run_git


def with_board_revisions(
    file: Path, revisions: Sequence[Revision], boards: Collection[str], since: str | None = None
) -> list[Revision]:
    """Return a file's revisions, and between them those that changed only one of its boards.

    :param boards: their paths from the top of the repository.
    :param since: what `revisions_of` takes.
    """
    found = _commits_of(file, boards, since) if boards else []
    if not found:
        return list(revisions)
    order = run_git(*at(file), "rev-list", "HEAD")
    return _merged(revisions, found, {commit: rank for rank, commit in enumerate(order.lines)})


def _commits_of(file: Path, boards: Collection[str], since: str | None) -> list[list[str]]:
    """Return the commits that changed one of the boards: each its name, date and subject."""
    prefix = prefix_of(file)
    paths = [os.path.relpath(board, prefix or ".") for board in boards]
    later = later_than(file, since) if since else ()
    ran = run_git(*at(file), *PLAIN_LOG, "-s", *later, "--", *paths)
    words = ran.out.decode("utf-8", "replace").split("\0")
    return [words[place : place + 3] for place in range(0, len(words) - 2, 3)]


def _merged(
    revisions: Sequence[Revision], found: Sequence[Sequence[str]], ranks: dict[str, int]
) -> list[Revision]:
    """Return revisions with further commits among them, each with the content that it left."""
    last = len(ranks)
    known = {one.commit: ranks.get(one.commit, last) for one in revisions}
    more = list[Revision]()
    for commit, date, subject in found:
        rank = ranks.get(commit, last)
        before = next((one for one in revisions if known[one.commit] > rank), None)
        if commit not in known and before and before.new:
            more.append(
                Revision(
                    commit=commit,
                    date=date,
                    subject=subject,
                    path=before.path,
                    old_path=before.path,
                    old=before.new,
                    new=before.new,
                    is_of_board=True,
                )
            )
    return sorted([*revisions, *more], key=lambda one: ranks.get(one.commit, last))
