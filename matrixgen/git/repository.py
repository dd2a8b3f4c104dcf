"""A file as a revision of the current folder's repository has it: `REV:PATH`."""

from __future__ import annotations

import posixpath
import re
from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.git.beside import MOST_BYTES, Folder, as_lines, read_each
from matrixgen.git.program import GitRan, ask_git, lines_of, run_git
from matrixgen.record import Record
from matrixgen.similar import similar_help

_DRIVE = re.compile(r"[A-Za-z]:[\\/]")
_SPEC = re.compile(r"((?:[^:{]|\{[^}]*\})*(?::[0-3](?=:))?):(.+)")
"""A revision, which may have a colon in braces (`@{12:00}`) or be a place of the index (`:2`)."""

SHORT = "--format=%(refname:short)"
_INDEX = re.compile(r"(:[0-3])?")


def is_revision(word: str) -> bool:
    """Whether a word of a command line is `REV:PATH`, and no file's name, be it with a drive."""
    if _DRIVE.match(word) or not _SPEC.fullmatch(word):
        return False
    try:
        return not Path(word).exists()
    except (OSError, ValueError):  # too long for a path, or no text for one
        return True


def revisions() -> tuple[str, ...]:
    """Return the branches and tags of the repository of the current folder, newest first."""
    return lines_of("for-each-ref", SHORT, "--sort=-creatordate", "refs/heads", "refs/tags")


def read_revision(spec: str) -> bytes:
    """Return the bytes of a file at a revision, given as `REV:PATH`.

    The path is looked for from the top of the repository, then from the current folder; one that
    begins with `./` or `../` only from there. An empty revision is what the index has.
    """
    found = _SPEC.fullmatch(spec)
    if not found or "\n" in spec or "\0" in spec:
        raise Failure(f"`{spec}` names no revision of a file", "write it as REV:PATH")
    revision, path = found.groups()
    file = _find(revision, path.replace("\\", "/"))
    (data,) = read_each([file.name])
    if data is None:
        raise Failure(f"`{path}` in `{revision}` has more than {MOST_BYTES:,} bytes")
    return data


def folder_in_revision(spec: str) -> tuple[Folder, Path]:
    """Return the folder of a file that `read_revision` reads: in that revision, and here."""
    found = _SPEC.fullmatch(spec)
    assert found, "a word that names no revision of a file has been refused"
    revision, path = found[1], found[2].replace("\\", "/")
    if not _find(revision, path).is_from_here:
        top = (*lines_of("rev-parse", "--show-cdup"), ".")[0]
        folder = posixpath.dirname(path)
        return Folder(revision, folder), Path(top, folder)
    here = posixpath.dirname(f"./{path}")
    return Folder(revision, here), Path(here)


class _Found(Record):
    """Git's name of a file's content, and whether its path is from the current folder."""

    name: str
    is_from_here: bool


def _find(revision: str, path: str) -> _Found:
    """Return where git has the file: it is asked for by lines, which are no options."""
    root = f"{revision}^{{tree}}" if not _INDEX.fullmatch(revision) else ""
    asked = [root, f"{revision}:{path}", f"{revision}:./{path}"]
    ran = run_git("cat-file", "--batch-check", stdin=as_lines(asked))
    if not ran.lines:
        raise ran.problem
    kinds = [tuple(line.split()[:2]) for line in _answers(ran, asked)]
    files = [
        _Found(name, is_from_here)
        for (name, kind), is_from_here in zip(kinds[1:], (False, True), strict=True)
        if kind == "blob"
    ]
    if files:
        return files[0]
    if root and kinds[0][1] != "tree":
        raise no_revision(revision, is_ambiguous=kinds[0][1] == "ambiguous")
    if any(kind in ("tree", "commit", "submodule") for _, kind in kinds[1:]):
        raise Failure(f"`{path}` is a folder in `{revision}`", "name a file in it")
    raise _no_path(revision, path)


def _answers(ran: GitRan, asked: list[str]) -> list[str]:
    """Return git's answer to each name; it gives up at a path that leaves the repository."""
    missing = [f"{number} missing" for number in range(len(asked))]
    answers = [
        f"? {line.split()[-1]}" if line.endswith((" missing", " ambiguous")) else line
        for line in ran.lines
    ]
    return [*answers, *missing[len(answers) :]]


def no_revision(revision: str, *before: str, is_ambiguous: bool = False) -> Failure:
    """Say why there is no such revision: a clone without it is no mistake of the user's.

    :param before: words that git is given before the command, such as the folder to run in.
    """
    if is_ambiguous:
        return Failure(f"more than one revision begins with `{revision}`", "give more of it")
    if lines_of(*before, "rev-parse", "--is-shallow-repository") == ("true",):
        return Failure(
            f"`{revision}` is not in this clone, which has the latest revisions alone",
            "`git fetch --unshallow` gets the others",
        )
    known = lines_of(*before, "for-each-ref", SHORT)
    help = similar_help(revision, known) or "`git log --oneline` lists the revisions"
    return Failure(f"there is no revision `{revision}`", help)


def _no_path(revision: str, path: str) -> Failure:
    """Say that a revision has no such file, and which of its files has a similar name."""
    words = ("ls-tree", "-rz", "--full-tree", "--name-only", "--end-of-options", revision)
    ran = ask_git(*(words if not _INDEX.fullmatch(revision) else ("ls-files", "-z", "--full-name")))
    names = ran.out.decode("utf-8", "replace").split("\0")
    where = f"`{revision}`" if not _INDEX.fullmatch(revision) else "the index"
    keys = [name for name in names if name.endswith(".keys")]
    help = similar_help(path, names)
    if not help and len(keys) == 1:
        help = f"its only .keys file is `{revision}:{keys[0]}`"
    return Failure(f"there is no `{path}` in {where}", *([help] if help else []))
