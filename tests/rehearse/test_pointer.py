"""A pointer in a rehearsal: its many reports are told of by what they add up to."""

from __future__ import annotations

from matrixgen.cli.rehearse_json import as_json
from matrixgen.cli.rehearse_text import lines
from matrixgen.model import Keyboard, Press
from matrixgen.model.speeds import POINTER_SPEED
from matrixgen.rehearse.happening import Happening
from matrixgen.rehearse.play import play
from matrixgen.rehearse.script import read_script
from tests.firmware.build_model import keyboard
from tests.firmware.pads import pointer_key
from tests.firmware.test_pointer import distance

WORDS = ("PointerRight", "PointerUp", "Button1", "WheelDown")


def pad() -> Keyboard:
    base = {"A": Press(0x04), **{word: pointer_key(word) for word in WORDS}}
    return keyboard([[*base]], {"base": base})


def happened(script: str) -> list[Happening]:
    steps, found = read_script("steps", script, pad())
    assert found == []
    return list(play(pad(), steps))


def told(script: str) -> list[str]:
    return [" ".join(line.split()) for line in lines(happened(script)) if "report" in line]


def test_a_tap_moves_a_few_steps_and_is_one_line() -> None:
    steps = 1 + int(distance(POINTER_SPEED, 35))
    (line,) = told("PointerRight wait 100")
    assert line.endswith(f"pointer report: moved {steps} right")


def test_a_long_way_is_told_of_now_and_then_and_adds_up() -> None:
    said = told("+PointerRight wait 1000 -PointerRight wait 100")
    moved = [int(line.split()[-2]) for line in said]
    assert 3 < len(said) < 8
    assert sum(moved) == 1 + int(distance(POINTER_SPEED, 1006))


def test_buttons_are_told_of_at_once_with_what_has_moved() -> None:
    said = told("+PointerUp wait 20 +Button1 wait 5 -Button1 wait 20 -PointerUp wait 100")
    assert "Button1 down, moved" in said[0] and said[0].endswith("up")
    assert said[1].partition("report: ")[2].startswith(("moved", "nothing down"))


def test_a_key_that_is_down_at_the_end_loses_none_of_its_way() -> None:
    said = told("+WheelDown wait 30")
    assert said[-1].endswith("pointer report: moved wheel 1 down")


def test_json_has_the_words_and_what_moved() -> None:
    found = as_json("pad.keys", happened("WheelDown wait 100"))["happenings"]
    (report,) = [one for one in found if one["what"] == "report"]
    assert report["of"] == "pointer" and report["down"] == []
    assert report["moved"] == ["wheel 1 down"]
