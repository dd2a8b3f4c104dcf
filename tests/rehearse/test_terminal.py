"""The whole program behind a pseudo-terminal, seen as a person would see it, by pyte."""

import sys
from pathlib import Path

import pytest

from matrixgen.cli.fit_to_print import AS_THE_TERMINAL_CAN
from matrixgen.cli.rehearse_terminal import rehearse_on_terminal
from matrixgen.jobs.examine import examine
from tests.examples.shipped import FOLDER
from tests.terminal import CTRL_C, Terminal

PAD = """\
plate
  line Esc A B Fn F6 Up

layer base
  Fn = hold layer more

layer more
  A = Ctrl+C
"""
CTRL_T, ESCAPE = "\x14", "\x1b"
UP, F6 = "\x1b[A", "\x1b[17~"
"""What the terminal called `linux` sends for these keys."""


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


@pytest.mark.parametrize("size", [(40, 24), (40, 12), (80, 12), (40, 8)])
def test_in_a_small_terminal_how_to_leave_the_layers_and_the_last_reports_are_in_view(size):
    path = FOLDER / "avocet-42" / "avocet-42.keys"
    terminal = Terminal("rehearse", str(path), size=size)
    terminal.wait_for("layers: base", "Esc Esc leave")
    terminal.type("a")
    terminal.wait_for("layers: base", "Esc Esc leave", "report: A down", "report: nothing")
    terminal.type(CTRL_C)
    assert terminal.status() == 0


def test_a_terminal_that_has_ascii_alone_is_sent_no_escapes(tmp_path):
    path = tmp_path / "wide.keys"
    keys = " ".join(f"Application.{n}" for n in range(8))
    path.write_text(f'keyboard "{"Long name, " * 9}"\n\nplate\n  line {keys} A\n', "utf-8")
    ascii_alone = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    terminal = Terminal("rehearse", str(path), size=(40, 12), **ascii_alone)
    terminal.wait_for("layers: base")
    terminal.type(":-No-such-key" * 9 + "\r")
    terminal.wait_for("the plate has no key")
    terminal.type(CTRL_C)
    assert terminal.status() == 0
    assert terminal.said.isascii()
    assert b"u2026" not in terminal.said


def test_what_ascii_has_no_character_for_is_written_so_that_one_can_read_it():
    shown = "a name that goes on…, µs, é, \udcff".encode("ascii", AS_THE_TERMINAL_CAN)
    assert shown == rb"a name that goes on..., us, \xe9, \udcff"
