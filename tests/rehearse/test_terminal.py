"""The whole program behind a pseudo-terminal, seen as a person would see it, by pyte."""

import fcntl
import os
import pty
import select
import struct
import sys
import termios
import time
from pathlib import Path

import pyte
import pytest

from matrixgen.cli.rehearse_terminal import rehearse_on_terminal
from matrixgen.jobs.examine import examine

PAD = """\
plate
  line Esc A B Fn F6 Up

layer base
  Fn = hold layer more

layer more
  A = Ctrl+C
"""
ROWS, COLUMNS = 24, 80
PATIENCE_S = 20
CTRL_C, CTRL_T, ESCAPE = "\x03", "\x14", "\x1b"
UP, F6 = "\x1b[A", "\x1b[17~"
"""What the terminal called `linux` sends for these keys."""


class Terminal:
    """A program in a terminal of its own."""

    def __init__(self, *words, term="linux"):
        self.screen = pyte.Screen(COLUMNS, ROWS)
        self.stream = pyte.ByteStream(self.screen)
        self.said = b""
        environment = os.environ | {"TERM": term, "LANG": "C.UTF-8"}
        self.process, self.handle = pty.fork()
        if self.process == 0:
            command = [sys.executable, "-m", "matrixgen", *words]
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
            os.execve(sys.executable, command, environment)

    @property
    def text(self):
        return "\n".join(line.rstrip() for line in self.screen.display)

    def read(self, seconds=0.05):
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

    def wait_for(self, *parts):
        end = time.monotonic() + PATIENCE_S
        while not all(part in self.text for part in parts):
            assert self.read() and time.monotonic() < end, f"{parts} not in\n{self.text}"

    def type(self, letters):
        os.write(self.handle, letters.encode())

    def status(self):
        """The exit status, once the program has left."""
        while self.read(PATIENCE_S):
            pass
        _, status = os.waitpid(self.process, 0)
        os.close(self.handle)
        return os.waitstatus_to_exitcode(status)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "pad.keys"
    path.write_text(PAD, "utf-8")
    return str(path)


def test_one_types_and_sees_keys_layers_and_reports(file):
    terminal = Terminal("rehearse", file)
    terminal.wait_for("layers: base", "down: nothing", "Esc Esc leave", ">more")
    terminal.type("a")
    terminal.wait_for("report: A down", "report: nothing down")
    terminal.type(UP)
    terminal.wait_for("report: UpArrow down")
    terminal.type(F6)
    terminal.wait_for("report: F6 down")
    terminal.type(":+Fn\r")
    terminal.wait_for("*Fn", "layers: more, base", "Ctrl+C", "last press: Fn, hold layer more")
    terminal.type(CTRL_T)
    terminal.wait_for("typed keys stay down until typed again")
    terminal.type("a")
    terminal.wait_for("*A", "report: Ctrl+C down", "down: A, Fn")
    terminal.type(":-Q")
    terminal.wait_for(":-Q")
    terminal.type("\r")
    terminal.wait_for("the plate has no key `Q`")
    terminal.type(ESCAPE)
    terminal.wait_for("Esc again leaves", "*Esc")
    terminal.type(ESCAPE)
    assert terminal.status() == 0


def test_control_c_leaves(file):
    terminal = Terminal("rehearse", file)
    terminal.wait_for("layers: base")
    terminal.type(CTRL_C)
    assert terminal.status() == 0


@pytest.mark.parametrize(
    ("term", "said"), [("dumb", b"cannot place its cursor"), ("no-such", b"cannot be drawn on")]
)
def test_a_terminal_that_cannot_be_drawn_on_is_told(file, term, said):
    terminal = Terminal("rehearse", file, term=term)
    assert terminal.status() == 2
    assert said in terminal.said and b"--script FILE" in terminal.said
    assert b"Traceback" not in terminal.said


def test_a_python_without_curses_says_so(file, monkeypatch, capsys):
    design = examine(file).design
    assert design
    monkeypatch.setitem(sys.modules, "curses", None)
    assert rehearse_on_terminal(design.keyboard) == 2
    said = capsys.readouterr().err
    assert "this Python has no `curses`" in said and "--script FILE" in said


def test_json_asks_for_a_script(file):
    terminal = Terminal("rehearse", file, "--json")
    assert terminal.status() == 2
    assert b"`--script FILE` plays a script instead" in terminal.said


def test_a_script_is_played_on_a_terminal_as_well(file):
    script = Path(file).with_name("steps")
    script.write_text("A", "utf-8")
    terminal = Terminal("rehearse", file, "--script", str(script))
    assert terminal.status() == 0
    assert b"report: A down" in terminal.said
