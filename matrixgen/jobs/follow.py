"""A file that is followed while somebody edits it: what it has at first, and after each save."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine, examine_text
from matrixgen.named_files import NamedFiles
from matrixgen.reach import folder_of, read_shown
from matrixgen.source.limits import LIMITS

POLL_S = 0.03
"""How often it is looked at."""

READ_EVERY = 32
"""Of so many looks, one reads what is there: not every file system tells times finely."""

MOST_UNSETTLED = 10
"""How often a file may be another one at each look before it is taken as it is."""


Look = tuple[bytes | None, tuple[bytes | None, ...]]
"""What a file has, and each file that it names; None where there is nothing that can be read."""


def examined_saves(path: str) -> Iterator[Examined]:
    """Yield what is found in a file, and again each time that it or what it names is saved.

    Editors write in steps, or put another file in its place: what is there counts once it is the
    same at two looks. Never ends.
    """
    named = NamedFiles()
    content = _content(path)
    while True:
        with named.noted():
            examined = _examined(path, content)
        yield examined
        look = _next_look(path, named, (content, named.then))
        content = _settled(path, named, look)[0]


def _next_look(path: str, named: NamedFiles, seen: Look) -> Look:
    """Wait until there is something else than what was seen, and return it.

    Files are read where their times or sizes have changed, and now and then in any case.
    """
    stamps: tuple[object, ...] = ()
    turn = 0
    while True:
        now = _stamps(path, named)
        if now != stamps or turn % READ_EVERY == 0:
            stamps, look = now, _look(path, named)
            if look != seen:
                return look
        turn += 1
        time.sleep(POLL_S)


def _stamps(path: str, named: NamedFiles) -> tuple[object, ...]:
    return tuple(map(_stamp, (Path(path), *named.paths)))


def _stamp(path: Path) -> tuple[int, ...] | None:
    try:
        status = path.stat()
    except (OSError, ValueError):
        return None
    return status.st_mtime_ns, status.st_ctime_ns, status.st_size, status.st_ino


def _look(path: str, named: NamedFiles) -> Look:
    return _content(path), named.now()


def _settled(path: str, named: NamedFiles, look: Look) -> Look:
    for _ in range(MOST_UNSETTLED):
        time.sleep(POLL_S)
        before, look = look, _look(path, named)
        if look == before:
            break
    return look


def _content(path: str) -> bytes | None:
    """Return what can be read of it."""
    try:
        return read_shown(Path(path), LIMITS.file_bytes)
    except (OSError, ValueError):
        return None


def _examined(path: str, content: bytes | None) -> Examined:
    if content is None:
        return examine(path)  # which tells why it cannot be read
    return examine_text(path, content.decode("utf-8", "surrogateescape"), folder_of(path))
