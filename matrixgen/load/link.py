"""A line to a boot loader, and the serial port that is one."""

from __future__ import annotations

import errno
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING, Protocol

from matrixgen.load import patience
from matrixgen.load.access import access_helps
from matrixgen.load.failure import AGAIN, LoadFailure
from matrixgen.model.reason import reason_of

if TYPE_CHECKING:
    import serial

BAUD = 57600
"""Bits a second, for lines that are not USB; over USB the number means nothing."""

RESTART_BAUD = 1200
"""Opening a board's port at this rate sends it to its boot loader: common practice, no source."""

WRITE_SECONDS = 10.0
QUIET_SECONDS = 0.05

PASSING = frozenset((errno.EACCES, errno.EPERM, errno.EBUSY, errno.EAGAIN, errno.ENOENT))
"""Refusals that may be gone a moment later, when the system is done with a new port."""


class Link(Protocol):
    """Bytes to and from a boot loader."""

    def write(self, data: bytes) -> None:
        """Send bytes; raises `LoadFailure` where they cannot be sent."""

    def read(self, count: int, seconds: float) -> bytes:
        """Return up to `count` bytes: fewer where no more come within so many seconds.

        Raises `LoadFailure` where the other end is gone.
        """

    def drain(self) -> None:
        """Drop what comes until nothing more does."""


class SerialLink:
    """A serial port that is open, for this process alone."""

    def __init__(self, port: serial.Serial) -> None:
        self._port = port

    def write(self, data: bytes) -> None:
        """Send bytes, as `Link` says."""
        with _reporting_a_lost_board():
            self._port.write(data)

    def read(self, count: int, seconds: float) -> bytes:
        """Return what comes, as `Link` says."""
        with _reporting_a_lost_board():
            self._port.timeout = seconds
            return bytes(self._port.read(count))

    def drain(self) -> None:
        """Drop what comes, as `Link` says."""
        while self.read(4096, QUIET_SECONDS):
            pass


@contextmanager
def _reporting_a_lost_board() -> Iterator[None]:
    """Say of a port that fails that the board is gone: that is what it is, on USB."""
    try:
        yield
    except (OSError, _termios_error()) as error:  # pyserial's own exceptions are OSErrors
        raise LoadFailure("the board went away in the middle", AGAIN) from error


def _termios_error() -> type[Exception]:
    """Return what the terminal's driver raises; where there is none, what is caught anyway."""
    try:
        import termios
    except ImportError:
        return OSError
    return termios.error


@contextmanager
def opened(path: str) -> Iterator[SerialLink]:
    """Open a serial port and close it in the end.

    Raises `LoadFailure` where it is not there, is another program's, or may not be opened.
    """
    port = _patiently(path, BAUD)
    try:
        yield SerialLink(port)
    finally:
        with suppress(OSError, _termios_error()):
            port.close()


def restart(path: str) -> None:
    """Send a board that runs its ordinary program to its boot loader.

    Raises `LoadFailure` as `opened` does.
    """
    port = _patiently(path, RESTART_BAUD)
    with suppress(OSError, _termios_error()):  # it may be gone before it is closed
        port.dtr = False
    with suppress(OSError, _termios_error()):
        port.close()


def _patiently(path: str, baud: int) -> serial.Serial:
    """Open a port, and again for a while where what hinders may pass."""
    until = time.monotonic() + patience.OPENS
    while True:
        try:
            return _open(path, baud)
        except (OSError, _termios_error()) as error:
            number = error.errno if isinstance(error, OSError) else None
            if number not in PASSING or time.monotonic() >= until:
                raise _refusal(path, error) from error
            time.sleep(patience.LOOKS)


def _open(path: str, baud: int) -> serial.Serial:
    import serial  # only here: no other command needs it

    return serial.Serial(path, baud, write_timeout=WRITE_SECONDS, exclusive=True)


def _refusal(path: str, error: Exception) -> LoadFailure:
    number = error.errno if isinstance(error, OSError) else None
    if number in (errno.EACCES, errno.EPERM):
        return LoadFailure(f"you may not use `{path}`", *access_helps(path))
    if number in (errno.EBUSY, errno.EAGAIN):
        return LoadFailure(
            f"another program has `{path}` open",
            "close it; a modem manager releases a new port by itself after some seconds",
        )
    if number in (errno.ENOENT, errno.ENODEV, errno.ENXIO):
        return LoadFailure(
            f"there is no port `{path}`", "`matrixgen load --list` shows what is plugged in"
        )
    if number is None:
        return LoadFailure(f"`{path}` is not a serial port: {reason_of(error)}")
    return LoadFailure(f"`{path}` cannot be opened: {_plain(error)}")


def _plain(error: Exception) -> str:
    """Return the system's own words for an error that pyserial has wrapped in a sentence."""
    import os

    number = error.errno if isinstance(error, OSError) else None
    return reason_of(OSError(number, os.strerror(number)) if number else error)
