"""What is shown of work that takes long: on a terminal alone, and gone when it is done."""

from __future__ import annotations

import io
import sys
import time

import pyte
import pytest

from matrixgen.cli import build, check, sheet
from matrixgen.cli.progress import counted_seconds
from tests.patience import HANGS_S
from tests.texts import GOOD


class Screen(io.StringIO):
    """Standard error as a terminal, which knows what was once on its last line."""

    def isatty(self) -> bool:
        return True

    @property
    def text(self) -> str:
        screen = pyte.Screen(80, 4)
        pyte.Stream(screen).feed(self.getvalue())
        return "\n".join(line.rstrip() for line in screen.display).strip()


def a_screen(monkeypatch) -> Screen:
    """Put a screen in the place of standard error: within the test, since pytest does so before."""
    monkeypatch.setattr("matrixgen.cli.progress.BAR_AFTER", 0)
    shown = Screen()
    monkeypatch.setattr(sys, "stderr", shown)
    return shown


def _wait_for(screen: Screen, text: str) -> None:
    end = time.monotonic() + HANGS_S
    while text not in screen.text:
        assert time.monotonic() < end
        time.sleep(0.01)


def test_seconds_are_counted_and_their_line_is_left_empty(monkeypatch):
    screen = a_screen(monkeypatch)
    with counted_seconds("building"):
        _wait_for(screen, "building: 0 s")
    assert screen.text == ""


def test_an_error_meanwhile_leaves_the_line_empty_too(monkeypatch):
    screen = a_screen(monkeypatch)
    with pytest.raises(OSError, match="x"), counted_seconds("building"):
        _wait_for(screen, "building")
        raise OSError("x")
    assert screen.text == ""


def test_what_is_done_soon_shows_nothing(monkeypatch):
    screen = a_screen(monkeypatch)
    monkeypatch.setattr("matrixgen.cli.progress.BAR_AFTER", HANGS_S)
    with counted_seconds("building"):
        pass
    assert screen.getvalue() == ""


def test_nothing_is_shown_where_standard_error_is_no_terminal(monkeypatch, capsys):
    monkeypatch.setattr("matrixgen.cli.progress.BAR_AFTER", 0)
    with counted_seconds("building"):
        time.sleep(0.05)
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("words", "job"),
    [
        (("build", "pad.keys", "--sources"), (build, "build_mounted")),
        (("sheet", "pad.keys", "-o", "-"), (sheet, "sheet_of_examined")),
        (("check", *(f"{number}.keys" for number in range(check.MANY))), (check, "examine")),
    ],
    ids=lambda value: value[0] if isinstance(value[0], str) else "",
)
def test_a_command_that_may_take_long_shows_it(program, monkeypatch, words, job):
    """As far as the terminal knows: each job here waits until something is on it."""
    for name in words[1:]:
        program.write(name, GOOD)
    (module, name), shown = job, a_screen(monkeypatch)
    does = getattr(module, name)

    def waits(*given: object, **more: object) -> object:
        if module is not check:
            _wait_for(shown, "ing: ")
        return does(*given, **more)

    monkeypatch.setattr(module, name, waits)
    program(*words)
    assert "\r" in shown.getvalue() and "ing" not in shown.text
