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
"""How often it is looked at. Reading a whole file takes less than a thousandth of that."""

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
        seen = content, named.then
        while (look := _look(path, named)) == seen:
            time.sleep(POLL_S)
        content = _settled(path, named, look)[0]


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
    """Return what can be read of it: by content, since not every file system tells times finely."""
    try:
        return read_shown(Path(path), LIMITS.file_bytes)
    except (OSError, ValueError):
        return None


def _examined(path: str, content: bytes | None) -> Examined:
    if content is None:
        return examine(path)  # which tells why it cannot be read
    return examine_text(path, content.decode("utf-8", "surrogateescape"), folder_of(path))
