"""Files that a .keys file names, as the revision that it is of has them."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterable, Iterator

from matrixgen.git.program import ask_git
from matrixgen.record import Record

Committed = Callable[[str], bytes | None]
"""What a revision has at a path as a .keys file writes it; None where nothing is there."""

MOST_BYTES = 1_000_000
"""The largest file that is read: no .keys file, board or diode may have more."""

_NAME = re.compile(r"[0-9a-f]{40}|[0-9a-f]{64}")


class Folder(Record):
    """A folder as a revision has it: its path from the top, or with a dot first from here."""

    revision: str
    path: str


def committed_in(folder: Folder, *before: str) -> Committed:
    """Return what reads files of a folder, given by their paths from there.

    :param before: words that git is given before the command, such as the folder to run in.
    """

    def read(path: str) -> bytes | None:
        spec = spec_of(folder, path)
        (found,) = read_each([spec], *before) if spec else (None,)
        return found

    return read


def spec_of(folder: Folder, path: str) -> str | None:
    """Return git's word for a file, given from a folder; None for one that it cannot have."""
    path = path.replace("\\", "/")
    if path.startswith("/") or "\n" in folder.path + path or "\0" in path:
        return None
    joined = posixpath.normpath(posixpath.join(folder.path, path))
    if folder.path.startswith("."):
        return f"{folder.revision}:./{joined}"  # the current folder may lie below the top
    return None if joined.startswith("..") else f"{folder.revision}:{joined}"


def read_each(specs: Iterable[str], *before: str) -> list[bytes | None]:
    """Return what git has by each of some words for contents, at most `MOST_BYTES` of each.

    None stands for what it does not have, what is no file, and what is larger.

    :param before: words that git is given before the command, such as the folder to run in.
    """
    asked = list(specs)
    form = "--batch-check=%(objecttype) %(objectsize) %(objectname)"
    ran = ask_git(*before, "cat-file", form, stdin=as_lines(asked))
    names = [_name_in(line) for line in ran.lines]
    wanted = list(dict.fromkeys(name for name in names if name))
    ran = ask_git(*before, "cat-file", "--batch", stdin=as_lines(wanted))
    found = dict(_contents(ran.out))
    names += [None] * (len(asked) - len(names))  # git stops at what leaves the repository
    return [found.get(name) if name else None for name in names]


def as_lines(words: Iterable[str]) -> bytes:
    """Return words as git reads them from standard input, a line each: they are no options then."""
    return "".join(f"{one}\n" for one in words).encode("utf-8", "surrogateescape")


def _name_in(line: str) -> str | None:
    """Return git's name of a content that it has, if that is a file and not too large."""
    kind, size, name = (*line.split(), "", "", "")[:3]
    is_fit = kind == "blob" and size.isdecimal() and int(size) <= MOST_BYTES
    return name if is_fit and _NAME.fullmatch(name) else None


def _contents(out: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield what git printed by its names: a line of name, kind and length, then the bytes."""
    place = 0
    while place < len(out):
        end = out.index(b"\n", place)
        name, _, length = out[place:end].split()
        place = end + 1 + int(length)
        yield name.decode(), out[end + 1 : place]
        place += 1


def folder_with(path: str, blob: str, *, is_old: bool) -> Folder | None:
    """Return a file's folder in a revision that has this content of it; None if none is known.

    Git tells a program that compares which contents it compares, not of which revisions. So the
    content is looked for in the index, which `git diff` compares with the work tree, in `HEAD`, and
    in the latest commit that came to it or went from it. A new one is looked for in `HEAD` first.
    """
    if "\n" in path:
        return None
    folder = posixpath.dirname(path)
    specs = [f":{path}", f"HEAD:{path}"] if is_old else [f"HEAD:{path}", f":{path}"]
    ran = ask_git("cat-file", "--batch-check", stdin=as_lines(specs))
    names = [line.split()[0] for line in ran.lines]
    for spec, name in zip(specs, names, strict=False):
        if name == blob:
            return Folder(spec.partition(":")[0], folder)
    commit = _commit_with(path, blob, is_old=is_old)
    return Folder(commit, folder) if commit else None


def _commit_with(path: str, blob: str, *, is_old: bool) -> str | None:
    """Return the latest commit in which a file has this content; an old one's last."""
    words = ("log", "-2", "--all", "--format=%H", "--raw", "--no-abbrev", "--no-renames", "-z")
    ran = ask_git(*words, "--no-show-signature", f"--find-object={blob}", "--", path, most=0)
    parts = re.split(r"[\0\n]", ran.out.decode("utf-8", "replace"))
    commit = ""
    for part in parts:
        if part.startswith(":"):
            old, new = part.split()[2:4]
            if new == blob:
                return commit
            if old == blob and is_old:
                return f"{commit}^"
        elif _NAME.fullmatch(part):
            commit = part
    return None
