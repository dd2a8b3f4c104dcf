"""A program in a terminal of its own, seen as a person would see it, by pyte."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import sys
import termios
import time

import pyte

from tests.patience import HANGS_S

ROWS, COLUMNS = 24, 80
CTRL_C = "\x03"


class Terminal:
    """`matrixgen` with some words behind a pseudo-terminal; `said` has every byte it wrote.

    `size` is its columns and lines; `settings` are more variables of its environment. Another
    `program` is found as a shell finds it.
    """

    def __init__(
        self,
        *words: str,
        program: tuple[str, ...] = (sys.executable, "-m", "matrixgen"),
        term: str = "linux",
        size: tuple[int, int] = (COLUMNS, ROWS),
        **settings: str,
    ) -> None:
        columns, rows = size
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.said = b""
        environment = os.environ | {"TERM": term, "LANG": "C.UTF-8"} | settings
        for size_of_another in ("COLUMNS", "LINES"):  # a program takes them for its own terminal's
            environment.pop(size_of_another, None)
        self.process, self.handle = pty.fork()
        if self.process == 0:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
            os.execvpe(program[0], [*program, *words], environment)

    @property
    def text(self) -> str:
        """What is on the screen."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    def read(self, seconds: float = 0.05) -> bool:
        """Take what the program has written; false once it has closed the terminal."""
        if select.select([self.handle], [], [], seconds)[0]:
            try:
                data = os.read(self.handle, 65536)
            except OSError:
                return False
            self.said += data
            self.stream.feed(data)
            return bool(data)
        return True

    def wait_for(self, *parts: str) -> None:
        """Read until all these are on the screen."""
        end = time.monotonic() + HANGS_S
        while not all(part in self.text for part in parts):
            assert self.read() and time.monotonic() < end, f"{parts} not in\n{self.text}"

    def type(self, letters: str) -> None:
        """Type some letters."""
        os.write(self.handle, letters.encode())

    def status(self) -> int:
        """Return the exit status, once the program has left."""
        while self.read(HANGS_S):
            pass
        _, status = os.waitpid(self.process, 0)
        os.close(self.handle)
        return os.waitstatus_to_exitcode(status)
