"""The revisions of one file in git, newest first, under whatever names it had."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.git.beside import read_each
from matrixgen.git.program import commit_of, run_git
from matrixgen.record import Record

PLAIN_LOG = (
    "log",
    "-z",  # all that is printed ends with a NUL, which is in no subject and in no path
    "--format=%H%x00%as%x00%s",
    "--encoding=UTF-8",
    "--no-color",
    "--no-show-signature",
)
LOG = (
    *PLAIN_LOG,
    "--follow",
    "--root",
    "-c",  # a merge is compared with all its parents
    "--raw",
    "--no-abbrev",
    "--no-relative",
    "--no-ext-diff",
    "--no-textconv",
)
"""What is relied on is said: a setting of the repository or its user's may have any of it else."""

DAY = re.compile(r"\d{4}-\d\d-\d\d")


class Revision(Record, kw_only=True):
    """A commit that changed the file, and git's names of what was in it before and after.

    `date` is the author's, as YYYY-MM-DD. `old` is None where the file is new, `new` where it went.
    `old_path` is the file's name before, which a rename changes. One that `is_of_board` left the
    file as it was, and changed a board or a diode that it names.
    """

    commit: str
    date: str
    subject: str
    path: str
    old_path: str
    old: str | None
    new: str | None
    is_of_board: bool = False


def revisions_of(file: Path, since: str | None = None) -> list[Revision]:
    """Return the commits that changed a file of the working tree, newest first.

    :param since: a revision, whose own commits are left out, or a date as git reads it.
    """
    later = later_than(file, since) if since else ()
    ran = run_git(*at(file), *LOG, *later, "--", file.name if at(file) else str(file))
    if ran.status:
        raise _no_commits() if "does not have any commits" in ran.said else ran.problem
    return list(_revisions(ran.out.decode("utf-8", "replace").split("\0")))


def prefix_of(file: Path) -> str:
    """Return the path of a file's folder from the top of its repository, with a slash behind it."""
    return "".join(run_git(*at(file), "rev-parse", "--show-prefix", most=0).lines)


def later_than(file: Path, since: str) -> tuple[str, ...]:
    """Return the words for what came after a revision, or else after a date."""
    commit = commit_of(since, *at(file))
    return (f"^{commit}", "HEAD") if commit else (f"--since={_from_its_beginning(since)}",)


def _from_its_beginning(date: str) -> str:
    """Return a day with its first moment: git takes a bare one for that day at this hour."""
    return f"{date} 00:00:00" if DAY.fullmatch(date) else date


def at(file: Path) -> tuple[str, ...]:
    """Return the words that have git run in the file's folder: it may be in another repository."""
    return ("-C", str(file.parent)) if file.parent.is_dir() else ()


def _no_commits() -> Failure:
    return Failure("this repository has no commits yet", "`git commit` makes one")


def _revisions(words: list[str]) -> Iterator[Revision]:
    """Yield what git printed of the commits, known by its order alone.

    Of each there are its name, date and subject. What comes next is of the file: a colon for each
    parent, the modes, the names of the contents and what was done, and then the path; of a rename
    the old path first. A merge that took a side's file as it was has nothing of it.
    """
    waiting = iter(words)
    word = next(waiting, "")
    while word:
        commit, date, subject = word, next(waiting), next(waiting)
        word = _past_blanks(waiting)
        if word.startswith(":"):
            yield _revision(commit, date, subject, word.split(), waiting)
            word = _past_blanks(waiting)


def _past_blanks(waiting: Iterator[str]) -> str:
    """Return the next word, or nothing at the end: a line end is between a commit and its file."""
    return next((bare for word in waiting if (bare := word.lstrip("\n"))), "")


def _revision(
    commit: str, date: str, subject: str, raw: list[str], waiting: Iterator[str]
) -> Revision:
    parents = len(raw[0]) - len(raw[0].lstrip(":"))
    contents, done = raw[parents + 1 : 2 * parents + 2], raw[-1]
    path = old_path = next(waiting)
    if parents == 1 and done[0] in "RC":
        path = next(waiting)
    old, new = (None if set(one) == {"0"} else one for one in (contents[0], contents[-1]))
    return Revision(
        commit=commit,
        date=date,
        subject=subject,
        path=path,
        old_path=old_path,
        old=old,
        new=new,
    )


def read_contents(file: Path, names: Iterable[str]) -> list[bytes | None]:
    """Return what git has by each of some names, as `REV:PATH` too: all read by one process."""
    return read_each(names, *at(file))
