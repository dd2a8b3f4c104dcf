"""A file that is followed while somebody edits it: what it has at first, and after each save."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine, examine_text
from matrixgen.reach import folder_of, read_shown
from matrixgen.source.limits import LIMITS

POLL_S = 0.03
"""How often it is looked at. Reading a whole file takes less than a thousandth of that."""

MOST_UNSETTLED = 10
"""How often a file may be another one at each look before it is taken as it is."""


def saves(path: str) -> Iterator[bytes | None]:
    """Yield what a file has, and again each time that it has something else; None where it is not.

    Editors write in steps, or put another file in its place: what is there counts once it is the
    same at two looks. Never ends.
    """
    last = _content(path)
    yield last
    while True:
        time.sleep(POLL_S)
        now = _content(path)
        if now != last:
            last = _settled(path, now)
            yield last


def _settled(path: str, now: bytes | None) -> bytes | None:
    for _ in range(MOST_UNSETTLED):
        time.sleep(POLL_S)
        before, now = now, _content(path)
        if now == before:
            break
    return now


def _content(path: str) -> bytes | None:
    """Return what can be read of it: by content, since not every file system tells times finely."""
    try:
        return read_shown(Path(path), LIMITS.file_bytes)
    except (OSError, ValueError):
        return None


def examined_saves(path: str) -> Iterator[Examined]:
    """Yield what is found in a file at first, and after each save."""
    for content in saves(path):
        if content is None:
            yield examine(path)  # which tells why it cannot be read
        else:
            text = content.decode("utf-8", "surrogateescape")
            yield examine_text(path, text, folder_of(path))
