"""A UF2 file onto a drive: piece by piece, each written through, so that its fate is known.

The boot loader restarts the board when it has every block, and the drive goes: that is its way to
say that all is well. The system may then complain that the end of the file could not be written,
or its place in the folder, which nobody misses.
"""

from __future__ import annotations

import errno
import os
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.load import patience
from matrixgen.load.drives import Drive, is_gone
from matrixgen.model.reason import reason_of

PIECE_BYTES = 16 * 512
_NEW_FILE = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0)  # Windows has that
SAFE = (
    "nothing is broken: this boot loader is in the chip's ROM. Plug in with the button held, "
    "and load again"
)


def pieces_of(data: bytes) -> int:
    """Return in how many pieces a file is written."""
    return -(-len(data) // PIECE_BYTES)


def copy_to(drive: Drive, name: str, data: bytes, progress: Callable[[], object]) -> None:
    """Write a file to a drive, and wait until the drive goes.

    Raises `Failure` where the drive is full, cannot be written, goes early, or stays.
    """
    try:
        handle = os.open(Path(drive.path) / name, _NEW_FILE, 0o666)
    except OSError as error:
        raise _refused(drive, error) from error
    try:
        _write(handle, drive, data, progress)
    finally:
        with suppress(OSError):  # the drive may be gone by now, as it should be
            os.close(handle)
    _wait_for_its_end(drive)


def _write(handle: int, drive: Drive, data: bytes, progress: Callable[[], object]) -> None:
    for start in range(0, len(data), PIECE_BYTES):
        last = start + PIECE_BYTES >= len(data)
        piece = data[start : start + PIECE_BYTES]
        try:
            while piece:
                piece = piece[os.write(handle, piece) :]
            os.fsync(handle)
        except OSError as error:
            if not (last and is_gone(drive)):
                raise _refused(drive, error) from error
        if not last and is_gone(drive):
            raise _went_early()
        progress()


def _refused(drive: Drive, error: OSError) -> Failure:
    """Return what is wrong with a drive that would not take a piece."""
    if is_gone(drive):
        return _went_early()
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return Failure(
            f"you may not write to `{drive.path}`: {reason_of(error)}",
            "mount it again so that you may write to it, or plug the board in again",
        )
    return Failure(f"`{drive.path}` does not take the image: {reason_of(error)}", SAFE)


def _went_early() -> Failure:
    return Failure("the drive went away before it had the whole image", SAFE)


def _wait_for_its_end(drive: Drive) -> None:
    until = time.monotonic() + patience.GOES
    while not is_gone(drive):
        if time.monotonic() >= until:
            raise Failure(
                "the drive has the image and is still there: the board did not take it", SAFE
            )
        time.sleep(patience.LOOKS)
