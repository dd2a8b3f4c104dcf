"""A serial port that a test is the other end of: a pseudo-terminal, which has no modem lines."""

from __future__ import annotations

import array
import fcntl
import os
import pty
import termios
import tty


class PseudoPort:
    """Raw at both ends: `path` is what a program opens, `ours` the other end's descriptor."""

    def __init__(self) -> None:
        self.ours, self._theirs = pty.openpty()
        self._is_ours_open = True
        tty.setraw(self.ours)
        tty.setraw(self._theirs)
        self.path = os.ttyname(self._theirs)

    def close(self) -> None:
        self.hang_up()
        os.close(self._theirs)

    def hang_up(self) -> None:
        """Close our end: the program's reads fail, as of a device that was unplugged."""
        if self._is_ours_open:
            os.close(self.ours)
        self._is_ours_open = False

    def say(self, *lines: str) -> None:
        """Write a bench's lines at once."""
        if lines:
            os.write(self.ours, "".join(f"{line}\r\n" for line in lines).encode())

    @property
    def is_read(self) -> bool:
        """Whether all that was said has been taken."""
        left = array.array("i", [0])
        fcntl.ioctl(self._theirs, termios.FIONREAD, left)
        return left[0] == 0
