"""Opening a serial port: with patience, for this process alone, and with what to do if it fails."""

from __future__ import annotations

import errno
import os
import re
import sys
import time
from typing import TYPE_CHECKING

from matrixgen.failure import Failure
from matrixgen.model.reason import reason_of
from matrixgen.ports.access import access_helps

if TYPE_CHECKING:
    import serial

WRITE_SECONDS = 10.0

OPENS = 2.0
"""Seconds for a port that has just come: the system names it first and grants access to it later.
A planning figure without a source."""

LOOKS = 0.1
"""Seconds between two tries."""

PASSING = frozenset((errno.EACCES, errno.EPERM, errno.EBUSY, errno.EAGAIN, errno.ENOENT))
"""Refusals that may be gone a moment later, when the system is done with a new port."""


def terminal_errors() -> tuple[type[Exception], ...]:
    """Return what a port raises that fails: pyserial's own exceptions are of the first kind."""
    try:
        import termios
    except ImportError:  # not a system with terminals of that kind
        return (OSError,)
    return (OSError, termios.error)


REFUSALS: tuple[type[Exception], ...] = (*terminal_errors(), ValueError)
"""What opening a port raises; the last is for a name that no system takes for a port's."""


def open_patiently(path: str, baud: int) -> serial.Serial:
    """Open a port, and again for a while where what hinders may pass.

    Raises `Failure` where it is not there, is another program's, or may not be opened.
    """
    until = time.monotonic() + OPENS
    while True:
        try:
            return open_once(path, baud)
        except REFUSALS as error:
            number = _number(error)
            if number not in PASSING or time.monotonic() >= until:
                raise _refusal(path, error) from error
            time.sleep(LOOKS)


def open_once(path: str, baud: int) -> serial.Serial:
    """Open a port, for this process alone; raises as pyserial does."""
    import serial  # only here: no other command needs it

    return serial.Serial(path, baud, write_timeout=WRITE_SECONDS, exclusive=True)


def _number(error: Exception) -> int | None:
    """Return the system's number of an error: on Windows, pyserial has it only in its words."""
    if isinstance(error, OSError) and error.errno is not None:
        return error.errno
    found = re.search(r"Error\((\d+), ", str(error))
    return int(found[1]) if found else None


def _is_in_use(number: int | None) -> bool:
    """Whether another program has a port: Windows says of it that access is denied."""
    busy = (errno.EBUSY, errno.EAGAIN)
    return number in ((*busy, errno.EACCES) if sys.platform == "win32" else busy)


def _refusal(path: str, error: Exception) -> Failure:
    number = _number(error)
    if _is_in_use(number):
        return Failure(
            f"another program has `{path}` open",
            "close it; a modem manager releases a new port by itself after some seconds",
        )
    if number in (errno.EACCES, errno.EPERM):
        return Failure(f"you may not use `{path}`", *access_helps(path))
    if number in (errno.ENOENT, errno.ENODEV, errno.ENXIO):
        return Failure(
            f"there is no port `{path}`", "`matrixgen load --list` shows what is plugged in"
        )
    if number is None:
        return Failure(f"`{path}` is not a serial port")
    return Failure(f"`{path}` cannot be opened: {_plain(error)}")


def _plain(error: Exception) -> str:
    """Return the system's own words for an error that pyserial has wrapped in a sentence."""
    number = _number(error)
    return reason_of(OSError(number, os.strerror(number)) if number else error)
