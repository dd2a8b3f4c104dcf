"""The contents of a file's revisions: which read, what they say, each with its own boards."""

from __future__ import annotations

import os
import posixpath
import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from matrixgen.boards import is_path
from matrixgen.git.beside import MOST_BYTES, Folder, spec_of
from matrixgen.git.history import Revision, read_contents
from matrixgen.jobs.compare import Compared
from matrixgen.jobs.examine import Examined, read_and_mounted
from matrixgen.jobs.kept_history import CONTENTS, KeptAnswer, KeptHistory, hash_of
from matrixgen.model.prose import counted
from matrixgen.reach import read_named
from matrixgen.record import Record

MOST_READ = 8
"""Contents that are held at a time: of neighbours in the history, each is asked for twice."""

_QUOTED = re.compile(rb'"([^"\\\n]*)"')

NOT_HERE = "too large, or not in this clone"


class RevisionSide(Record):
    """A content by git's name, and the revision and folder in which its boards are looked for."""

    name: str
    revision: str
    folder: str


class Sides:
    """What is asked of contents, each read when it is first asked for."""

    def __init__(
        self,
        file: Path,
        every: Sequence[Revision],
        contents: Mapping[str, bytes],
        kept: KeptHistory,
    ) -> None:
        self._contents, self._kept, self._here = contents, kept, file.parent
        self._boards = _boards(file, every, contents)
        self._read: dict[str, Compared] = {}
        self._answers: dict[str, KeptAnswer] = {}

    def is_new(self, name: str) -> bool:
        """Whether nothing is kept of a content."""
        return self._kept.get(hash_of([self._contents[name]]), CONTENTS) is None

    def wrong_in(self, side: RevisionSide) -> str | None:
        """Return why a content does not read, or None."""
        answer = self._reading(side)
        return answer.words if answer.kind == "unreadable" else None

    def size_of(self, side: RevisionSide) -> str:
        """Return how many keys a content has that reads."""
        return self._reading(side).words

    def _reading(self, side: RevisionSide) -> KeptAnswer:
        if side.name not in self._contents:
            return KeptAnswer("unreadable", NOT_HERE)
        if side.name not in self._answers:
            name = hash_of([self._contents[side.name]])
            found = self._kept.get(name, CONTENTS) or self._kept.put(
                name, _answer(self.read(side).examined)
            )
            self._answers[side.name] = found
        return self._answers[side.name]

    def name_of(self, side: RevisionSide) -> str:
        """Return a name for a content with its boards."""
        data = self._contents[side.name]
        return hash_of([data, *(self._board(side, path) for path in paths_in(data))])

    def read(self, side: RevisionSide) -> Compared:
        """Return what a content says; it need not read."""
        name = self.name_of(side)
        if name not in self._read:
            while len(self._read) >= MOST_READ:
                del self._read[next(iter(self._read))]
            text = self._contents[side.name].decode("utf-8", "surrogateescape")
            read = read_and_mounted(
                "history", text, self._here, lambda path: self._board(side, path)
            )
            self._read[name] = Compared(read)
        return self._read[name]

    def _board(self, side: RevisionSide, path: str) -> bytes | None:
        """Return a file that a content names: of its revision, or else of the work tree."""
        spec = spec_of(Folder(side.revision, side.folder), path)
        there = self._boards.get(spec) if spec else None
        if there is None:
            with suppress(OSError):
                there = read_named(self._here / path, self._here, MOST_BYTES)
        return there


def _answer(read: Examined) -> KeptAnswer:
    if read.design:
        return KeptAnswer("new", counted(len(read.design.keyboard.keys), "key"))
    wrong = next(found for found in read.findings if found.is_error)
    return KeptAnswer("unreadable", f"line {wrong.span.line}: {wrong.message}")


def paths_in(data: bytes) -> list[str]:
    """Return the words in quotes that may be paths: more than its boards, but those as well."""
    found = dict.fromkeys(os.fsdecode(word) for word in _QUOTED.findall(data))
    return [word for word in found if is_path(word)]


def boards_of(every: Sequence[Revision], contents: Mapping[str, bytes]) -> list[str]:
    """Return the paths, from the top of the repository, of what may be boards of contents."""
    folders = dict.fromkeys((one.new, posixpath.dirname(one.path)) for one in every if one.new)
    specs = (
        spec_of(Folder("", folder), path)
        for name, folder in folders
        for path in paths_in(contents.get(name, b""))
    )
    return list(dict.fromkeys(spec.removeprefix(":") for spec in specs if spec))


def _boards(
    file: Path, every: Sequence[Revision], contents: Mapping[str, bytes]
) -> dict[str, bytes]:
    """Return what may be boards of contents, by git's words for them, all read by one process."""
    specs = list(dict.fromkeys(_specs(every, contents)))
    found = zip(specs, read_contents(file, specs) if specs else (), strict=True)
    return {spec: data for spec, data in found if data is not None}


def _specs(every: Sequence[Revision], contents: Mapping[str, bytes]) -> Iterator[str]:
    for one in every:
        sides = ((one.new, one.commit, one.path), (one.old, f"{one.commit}^", one.old_path))
        for name, revision, path in sides:
            folder = Folder(revision, posixpath.dirname(path))
            for board in paths_in(contents.get(name or "", b"")):
                if spec := spec_of(folder, board):
                    yield spec
