"""Reading files whose size and kind nobody vouches for: never more than was asked for."""

from __future__ import annotations

import os
import stat
from pathlib import Path

_OPEN = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""To open a pipe does not wait for who writes into it."""


class Refused(OSError):
    """Why a file is not read, in words like the system's, and what can be done about it."""

    def __init__(self, why: str, *helps: str) -> None:
        super().__init__(None, why)
        self.helps = helps


class TooLarge(Refused):
    """A file has more than may be read of it."""

    def __init__(self, most: int) -> None:
        super().__init__(f"it has more than {most:,} bytes")


def read_regular(path: Path, most: int) -> bytes:
    """Return what is in a regular file of at most so many bytes; raises `OSError`.

    Pipes, devices and folders are refused, and none of them is waited for.
    """
    try:
        _refuse_irregular(path.stat(), most)
        handle = os.open(path, _OPEN)
    except ValueError as error:
        raise Refused("it is not a path") from error
    with os.fdopen(handle, "rb") as file:
        _refuse_irregular(os.fstat(handle), most)  # it may be another one by now
        return at_most(file.read(most + 1), most)


def read_any(path: Path, most: int) -> bytes:
    """Return what a file of the command line gives, be it a pipe; raises `OSError`."""
    try:
        with path.open("rb") as file:
            return at_most(file.read(most + 1), most)
    except ValueError as error:
        raise Refused("it is not a path") from error


def _refuse_irregular(status: os.stat_result, most: int) -> None:
    if stat.S_ISDIR(status.st_mode):
        raise Refused("it is a folder")
    if not stat.S_ISREG(status.st_mode):
        raise Refused("it is not a regular file")
    if status.st_size > most:
        raise TooLarge(most)


def at_most(data: bytes, most: int) -> bytes:
    """Return what was read of a file, up to one byte more than it may have; raises `TooLarge`."""
    if len(data) > most:
        raise TooLarge(most)
    return data
