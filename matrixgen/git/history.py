"""The revisions of one file in git, newest first, under whatever names it had."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from matrixgen.git.program import GitProblem, run_git
from matrixgen.record import Record

COMMIT, FIELD = "\x01", "\x1f"
FORMAT = f"--format={COMMIT}%H{FIELD}%as{FIELD}%s"
NOTHING = "0" * 40
DAY = re.compile(r"\d{4}-\d\d-\d\d")


class Revision(Record, kw_only=True):
    """A commit that changed the file, and git's names of what was in it before and after.

    `date` is the author's, as YYYY-MM-DD. `old` is None where the file is new, `new` where it went.
    """

    commit: str
    date: str
    subject: str
    path: str
    old: str | None
    new: str | None


def revisions_of(file: Path, since: str | None = None) -> list[Revision] | GitProblem:
    """Return the commits that changed a file of the working tree, newest first."""
    words = ["--literal-pathspecs", "log", "-z", "--follow", "--raw", "--no-abbrev", "-c", FORMAT]
    words += [f"--since={_from_its_beginning(since)}"] if since else []
    ran = run_git(*_at(file), *words, "--", file.name if _at(file) else str(file))
    if isinstance(ran, GitProblem):
        return ran
    if ran.status:
        return _no_commits() if "does not have any commits" in ran.said else ran.problem
    text = ran.out.decode("utf-8", "replace")
    return [one for part in text.split(COMMIT)[1:] if (one := _revision(part))]


def _from_its_beginning(date: str) -> str:
    """Return a day with its first moment: git takes a bare one for that day at this hour."""
    return f"{date} 00:00:00" if DAY.fullmatch(date) else date


def _at(file: Path) -> tuple[str, ...]:
    """Return the words that have git run in the file's folder: it may be in another repository."""
    return ("-C", str(file.parent)) if file.parent.is_dir() else ()


def _no_commits() -> GitProblem:
    return GitProblem("this repository has no commits yet", ("`git commit` makes one",))


def _revision(part: str) -> Revision | None:
    """Return what git says of a commit; None for a merge that took a side's file as it was.

    What it prints of the file is a colon for each parent, the modes, the names of the contents and
    what was done, and then the path; of a rename the old path first.
    """
    head, *rest = part.split("\0")
    commit, date, subject = head.split(FIELD, 2)
    raw = next((one.lstrip("\n") for one in rest if one.lstrip("\n").startswith(":")), None)
    if raw is None:
        return None
    parents = len(raw) - len(raw.lstrip(":"))
    contents = raw.split()[parents + 1 : 2 * parents + 2]
    path = [one for one in rest if one][-1]
    old, new = (None if set(one) == {"0"} else one for one in (contents[0], contents[-1]))
    return Revision(commit=commit, date=date, subject=subject, path=path, old=old, new=new)


def read_contents(file: Path, names: Iterable[str]) -> dict[str, bytes] | GitProblem:
    """Return contents by git's names of them, all read by one process."""
    wanted = list(dict.fromkeys(names))
    asked = "".join(f"{name}\n" for name in wanted).encode()
    ran = run_git(*_at(file), "cat-file", "--batch", stdin=asked)
    if isinstance(ran, GitProblem):
        return ran
    return ran.problem if ran.status else dict(_contents(ran.out))


def _contents(out: bytes) -> Iterator[tuple[str, bytes]]:
    place = 0
    while place < len(out):
        end = out.index(b"\n", place)
        head = out[place:end].split()
        place = end + 1
        if len(head) == 3:
            length = int(head[2])
            yield head[0].decode(), out[place : place + length]
            place += length + 1
