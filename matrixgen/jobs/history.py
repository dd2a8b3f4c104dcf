"""What each revision of a file changed, and what work that was."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Literal

from matrixgen.compare import compare
from matrixgen.git import GitProblem
from matrixgen.git.history import Revision, read_contents, revisions_of
from matrixgen.model import Design
from matrixgen.record import Record
from matrixgen.source import read_design

Work = Literal["new", "gone", "solder", "reflash", "cosmetic", "none", "unreadable"]


class Told(Record):
    """A revision, the work that it asked for, and that in words."""

    revision: Revision
    work: Work
    headline: str


class History(Record):
    """The revisions of a file, and what is in them by git's names."""

    revisions: tuple[Revision, ...]
    contents: Mapping[str, bytes]

    @property
    def told(self) -> Iterator[Told]:
        """Yield what each revision changed, newest first; each content is read once."""
        readings = _Readings(self.contents, self.revisions)
        for revision in self.revisions:
            yield Told(revision, *_work(revision, readings))
            readings.forget(revision)


def history_of(file: Path, since: str | None = None) -> History | GitProblem:
    """Return the history of a file in git; an empty one where no commit has it."""
    revisions = revisions_of(file, since)
    if isinstance(revisions, GitProblem):
        return revisions
    names = [name for one in revisions for name in (one.old, one.new) if name]
    contents = read_contents(file, names)
    return contents if isinstance(contents, GitProblem) else History(tuple(revisions), contents)


class _Readings:
    """What contents say, each read when it is first asked for and dropped after its last use."""

    def __init__(self, contents: Mapping[str, bytes], revisions: Sequence[Revision]) -> None:
        self._contents = contents
        self._read: dict[str, Design | str] = {}
        self._last = {name: one for one in revisions for name in (one.old, one.new)}

    def of(self, name: str) -> Design | str:
        """Return the design in a content, or why it does not read."""
        if name not in self._read:
            self._read[name] = _design(self._contents.get(name))
        return self._read[name]

    def forget(self, revision: Revision) -> None:
        """Drop what no later revision speaks of."""
        for name in (revision.old, revision.new):
            if name and self._last[name] is revision:
                self._read.pop(name, None)


def _design(data: bytes | None) -> Design | str:
    if data is None:
        return "its content is not in this clone"
    design, findings = read_design("history", data.decode("utf-8", "surrogateescape"))
    if design:
        return design
    wrong = next(found for found in findings if found.is_error)
    return f"line {wrong.span.line}: {wrong.message}"


def _work(revision: Revision, readings: _Readings) -> tuple[Work, str]:
    if revision.new is None:
        return "gone", "the file was removed"
    new = readings.of(revision.new)
    if isinstance(new, str):
        return "unreadable", new
    if revision.old is None:
        return "new", f"{len(new.keyboard.keys)} keys"
    old = readings.of(revision.old)
    if isinstance(old, str):
        return "unreadable", f"can be read again; before, {old}"
    if revision.old == revision.new:
        return "none", "no change to its content"
    found = compare(old, new)
    if found.kind == "none":
        return "cosmetic", "cosmetic only: written differently"
    return found.kind, found.headline
