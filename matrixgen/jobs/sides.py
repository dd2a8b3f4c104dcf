"""The two sides of a comparison: a file, a file as a revision has it, or what git hands over."""

from __future__ import annotations

import posixpath
from pathlib import Path

from matrixgen.git import is_revision, read_revision
from matrixgen.git.beside import Folder, committed_in, folder_with
from matrixgen.git.history import at
from matrixgen.git.repository import folder_in_revision
from matrixgen.git.then import file_then
from matrixgen.jobs.examine import Examined, examine, examine_text
from matrixgen.model.prose import counted, listed
from matrixgen.reach import read_argument
from matrixgen.source.limits import LIMITS


def side_of(word: str) -> Examined:
    """Return a file, standard input, or a file as a revision has it: `REV:PATH`.

    What a file of a revision names is looked for in that revision, then in the work tree.
    """
    if not is_revision(word):
        return examine(word)
    read = read_revision(word)
    there, folder = folder_in_revision(word)
    return examine_text(word, _text(read), folder, committed_in(there))


def side_since(since: str, file: str) -> Examined:
    """Return a file of the work tree as it was at a revision or before a day."""
    then = file_then(Path(file), since)
    folder = Folder(then.commit, posixpath.dirname(then.path))
    committed = committed_in(folder, *at(Path(file)))
    return examine_text(f"{since}:{then.path}", _text(then.data), Path(file).parent, committed)


def side_of_git(path: str, file: str, blob: str, *, is_old: bool) -> Examined:
    """Return one side as git hands it to a program that compares; raises `OSError`.

    :param path: the file's path from the top of the work tree, where git runs such a program.
    :param file: what has the content: that file, or a copy of git's own, which lies alone.
    :param blob: git's name of the content; all 0 where it has none.
    """
    if file == path:
        return examine(path)
    text = _text(read_argument(Path(file), LIMITS.file_bytes))
    there = folder_with(path, blob, is_old=is_old)
    committed = committed_in(there) if there else None
    return examine_text(path, text, Path(posixpath.dirname(path)), committed)


def _text(data: bytes) -> str:
    return data.decode("utf-8", "surrogateescape")


def found_in(side: Examined) -> str | None:
    """Return what a check says of a side that is not sound or not finished, in a line."""
    if side.is_sound and side.is_finished:
        return None
    errors = len(side.errors)
    numbers = ((errors, "error"), (len(side.findings) - errors, "warning"))
    counts = [counted(number, thing) for number, thing in numbers if number]
    said = [f"has {listed(counts)}"] if counts else []
    said += [f"is not finished: {listed(side.missing)}"] if side.missing else []
    return f"`{side.path}` {listed(said)}"
