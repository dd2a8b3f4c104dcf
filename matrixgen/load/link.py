"""A line to a boot loader, and the serial port that is one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

from matrixgen.failure import Failure
from matrixgen.load.failure import AGAIN
from matrixgen.ports.opening import open_patiently, terminal_errors

if TYPE_CHECKING:
    import serial

BAUD = 57600
"""Bits a second, for lines that are not USB; over USB the number means nothing."""

RESTART_BAUD = 1200
"""Opening a board's port at this rate sends it to its boot loader: common practice, no source."""

QUIET_SECONDS = 0.05


class Link:
    """Bytes to and from a boot loader: a serial port that is open, for this process alone.

    Reading and writing raise `Failure` where the other end is gone.
    """

    def __init__(self, port: serial.Serial) -> None:
        self._port = port

    def write(self, data: bytes) -> None:
        """Send bytes."""
        with _reporting_a_lost_board():
            self._port.write(data)

    def read(self, count: int, seconds: float) -> bytes:
        """Return up to `count` bytes: fewer where no more come within so many seconds."""
        with _reporting_a_lost_board():
            self._port.timeout = seconds
            return bytes(self._port.read(count))

    def drain(self) -> None:
        """Drop what comes until nothing more does."""
        while self.read(4096, QUIET_SECONDS):
            pass


@contextmanager
def _reporting_a_lost_board() -> Iterator[None]:
    """Say of a port that fails that the board is gone: that is what it is, on USB."""
    try:
        yield
    except terminal_errors() as error:
        raise Failure("the board went away in the middle", AGAIN) from error


@contextmanager
def opened(path: str) -> Iterator[Link]:
    """Open a serial port and close it in the end.

    Raises `Failure` where it is not there, is another program's, or may not be opened.
    """
    port = open_patiently(path, BAUD)
    try:
        yield Link(port)
    finally:
        with suppress(*terminal_errors()):
            port.close()


def restart(path: str) -> None:
    """Send a board that runs its ordinary program to its boot loader.

    Raises `Failure` as `opened` does.
    """
    port = open_patiently(path, RESTART_BAUD)
    with suppress(*terminal_errors()):  # it may be gone before it is closed
        port.dtr = False
    with suppress(*terminal_errors()):
        port.close()
