"""A serial port that a test is the other end of: a pseudo-terminal, which has no modem lines."""

from __future__ import annotations

import os
import pty
import tty


class PseudoPort:
    """Raw at both ends: `path` is what a program opens, `ours` the other end's descriptor."""

    def __init__(self) -> None:
        self.ours, self._theirs = pty.openpty()
        tty.setraw(self.ours)
        tty.setraw(self._theirs)
        self.path = os.ttyname(self._theirs)

    def close(self) -> None:
        os.close(self.ours)
        os.close(self._theirs)
