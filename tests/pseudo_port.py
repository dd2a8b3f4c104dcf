"""A serial port that a test is the other end of: a pseudo-terminal, which has no modem lines."""

from __future__ import annotations

import os
import pty
import time
import tty

REST_S = 0.06
"""Longer than all has to be open before the program takes the same pairs for another press."""


class PseudoPort:
    """Raw at both ends: `path` is what a program opens, `ours` the other end's descriptor."""

    def __init__(self) -> None:
        self.ours, self._theirs = pty.openpty()
        tty.setraw(self.ours)
        tty.setraw(self._theirs)
        self.path = os.ttyname(self._theirs)
        self._closed_last: set[str] = set()
        self._said_s = 0.0

    def close(self) -> None:
        os.close(self.ours)
        os.close(self._theirs)

    def say(self, *lines: str) -> None:
        """Write a bench's lines at once; rest before a pair that was closed last closes again."""
        closed = {line for line in lines if line.endswith(" closed")}
        if closed & self._closed_last:
            time.sleep(max(0, self._said_s + REST_S - time.monotonic()))
        self._closed_last = closed or self._closed_last
        if lines:
            os.write(self.ours, "".join(f"{line}\r\n" for line in lines).encode())
            self._said_s = time.monotonic()
