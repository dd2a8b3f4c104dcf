"""A rehearsal of a file that says what its computer is set to: reports, texts, letters typed in."""

from __future__ import annotations

import pytest

from matrixgen.cli.rehearse_json import as_json
from matrixgen.cli.rehearse_screen import screen
from matrixgen.cli.rehearse_text import lines
from matrixgen.model import Keyboard
from matrixgen.rehearse.play import play
from matrixgen.rehearse.script import Move, Tap, read_script
from matrixgen.rehearse.session import LiveRehearsal
from tests.texts import keyboard_in

PAD = """\
keyboard "Pad"
  computer {}

plate
  line Q Y Semicolon Equal Shift AltGr CapsLock E Enter Left Backspace
  line At Hi Both

layer base
  At = @  Hi = type "Öl"  Both = Ctrl+Y, then wait 20 ms, then type "ê"
"""


def pad(computer: str = "de") -> Keyboard:
    return keyboard_in(PAD.format(computer))


def told(script: str, computer: str = "de") -> list[str]:
    keyboard = pad(computer)
    steps, found = read_script("steps", script, keyboard)
    assert found == []
    return [" ".join(line.split()) for line in lines(list(play(keyboard, steps)))]


def test_a_sign_behind_alt_gr_is_written() -> None:
    assert told("At")[:3] == ["0 ms + At @", "0 ms report: AltGr+Q down", "0 ms writes @"]


def test_keys_have_the_letters_of_the_layout() -> None:
    assert told("Y")[0:3] == ["0 ms + Y Y", "0 ms report: Y down", "0 ms writes y"]
    assert told("Semicolon")[0:3] == ["0 ms + Semicolon Ö", "0 ms report: Ö down", "0 ms writes ö"]
    assert told("Equal E")[1:3] == [
        "0 ms report: ´ down",
        "0 ms the dead key ´ waits for the next key",
    ]
    assert "37 ms writes é" in told("Equal E")


def test_steps_in_turn_are_told_one_by_one_to_their_end() -> None:
    found = told("Both")
    assert found[0] == '0 ms + Both Ctrl+Y, then wait 20 ms, then type "ê"'
    assert [line for line in found if "nothing" not in line and "Both" not in line] == [
        "0 ms report: Ctrl+Y down",
        "28 ms report: ^ down",
        "28 ms the dead key ^ waits for the next key",
        "36 ms report: E down",
        "36 ms writes ê",
        '40 ms text: "ê"',
    ]


def test_the_text_is_right_while_caps_lock_is_on_and_so_is_what_follows() -> None:
    found = told("CapsLock Hi wait 200 E")
    assert found[-1].endswith('text: "ÖlE"')
    assert sum("report: CapsLock down" in line for line in found) == 3


def test_keys_that_edit_do_so_and_the_caret_is_shown() -> None:
    assert told("E Q Enter Backspace Y Left")[-1].endswith('text: "eq", caret, "y"')
    assert told("E Enter")[-1].endswith('text: "e\\n"')
    assert any(line.endswith("writes a line break") for line in told("E Enter"))


def test_a_file_without_a_computer_has_no_text() -> None:
    keyboard = keyboard_in("plate\n  line A Y\n")
    steps, _ = read_script("steps", "A Y", keyboard)
    assert not any("writes" in line or "text" in line for line in lines([*play(keyboard, steps)]))


def test_the_text_is_data_too() -> None:
    keyboard = pad()
    steps, _ = read_script("steps", "At", keyboard)
    found = as_json("pad.keys", [*play(keyboard, steps)])["happenings"]
    assert {"at_ms": 0, "what": "writes", "text": "@", "dead_key": None} in found
    assert {"at_ms": 36, "what": "text", "before": "@", "after": ""} in found


def test_a_step_may_say_the_letter_that_a_key_carries() -> None:
    steps, found = read_script("steps", "ö +Ö -ö € Q", pad())
    assert found == []
    assert steps == [
        Tap("Semicolon"),
        Move("Semicolon", True),
        Move("Semicolon", False),
        Tap("E"),
        Tap("Q"),
    ]
    _, (wrong,) = read_script("steps", "я", pad())
    assert wrong.message == "the plate has no key `я`"


def typed(letters: str, computer: str = "de") -> LiveRehearsal:
    live = LiveRehearsal(pad(computer))
    for letter in letters:
        live.type_letter(letter)
        live.pass_ms(900)
    return live


def text_of(live: LiveRehearsal) -> str:
    text = live.rehearsal.text()
    return text.before if text else ""


@pytest.mark.parametrize("letters", ["ö", "Ö", "@", "€", "é", "qyÖé@"])
def test_letters_typed_at_a_terminal_appear(letters: str) -> None:
    live = typed(letters)
    assert text_of(live) == letters and live.message == ""
    assert f'text: "{letters}"' in screen(live, 80, 40)


def test_a_letter_that_cannot_be_typed_is_said() -> None:
    assert typed("я").message == "`я`: the layout `de` has no way to type it"
    assert typed("x").message == "`x`: no key of the plate has that name"
