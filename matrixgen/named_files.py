"""Which files were read because a .keys file names them, and whether they have changed since.

What reads them notes them (`reach.py`), so nobody has to list what a file can name.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

Read = Callable[[], bytes]

_noting: ContextVar[NamedFiles | None] = ContextVar("noting", default=None)


class NamedFiles:
    """Files that were named, each with what was read of it: None where it could not be."""

    def __init__(self) -> None:
        self._found: dict[Path, tuple[Read, bytes | None]] = {}

    @contextmanager
    def noted(self) -> Iterator[None]:
        """Note what is read meanwhile, and forget what was noted before."""
        self._found.clear()
        before = _noting.set(self)
        try:
            yield
        finally:
            _noting.reset(before)

    def note(self, path: Path, read: Read, data: bytes | None) -> None:
        """Note a file, how it is read, and what it had."""
        self._found[path] = read, data

    @property
    def paths(self) -> tuple[Path, ...]:
        """The files."""
        return tuple(self._found)

    def now(self) -> tuple[bytes | None, ...]:
        """Return what the files have now."""
        return tuple(_data_of(read) for read, _ in self._found.values())

    @property
    def then(self) -> tuple[bytes | None, ...]:
        """What they had when they were read."""
        return tuple(data for _, data in self._found.values())


def reading(path: Path, read: Read) -> bytes:
    """Return what is in a file that is named, and note it for whoever wants to know."""
    noting = _noting.get()
    try:
        data = read()
    except OSError:
        if noting:
            noting.note(path, read, None)
        raise
    if noting:
        noting.note(path, read, data)
    return data


def _data_of(read: Read) -> bytes | None:
    try:
        return read()
    except OSError:
        return None
