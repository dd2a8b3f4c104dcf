"""`check --coverage` asks for the signs of the layout that a file names for its computer."""

from __future__ import annotations

from matrixgen.cli.coverage import coverage_lines
from matrixgen.computer.coverage import not_covered
from tests.texts import examined, keyboard_in

ON_LAYOUT = """\
keyboard "Pad"
  computer {}
plate
  line {}
layer base
  {}
"""


def untyped_on(computer, plate, cells):
    return "".join(not_covered(keyboard_in(ON_LAYOUT.format(computer, plate, cells)))["signs"])


ALL_KEYS = (
    "Grave 1 2 3 4 5 6 7 8 9 0 Minus Equal Q W E R T KeyY U I O P LeftBracket RightBracket A S D F "
    "G H J K L Semicolon Apostrophe Backslash NonUSBackslash KeyZ X C V B N M Comma Period Slash "
    "Space Shift"
)
GERMAN = "KeyY = Z  KeyZ = Y"


def test_on_a_german_computer_its_own_signs_are_asked_for_and_some_need_alt_gr():
    without = untyped_on("de", ALL_KEYS, GERMAN)
    assert without == "@[\\]{|}~"
    assert untyped_on("de", f"{ALL_KEYS} AltGr", GERMAN) == ""
    assert untyped_on("de", f"{ALL_KEYS} At", f"{GERMAN} At = @") == "[\\]{|}~"
    assert "ß" in untyped_on("de", "A B", "A = ö")


def test_what_a_dead_key_and_another_make_counts():
    assert "^" in untyped_on("de", "E Space", "E = E")
    assert "^" not in untyped_on("de", "Grave Space", "")
    assert "`" not in untyped_on("de on windows", "Equal Space Shift", "")


def test_a_cell_of_one_sign_counts_and_a_text_does_not():
    assert "^" not in untyped_on("de", "A B", "A = ^")
    assert "ö" in untyped_on("de", "A B", 'A = type "ö!"')


def test_letters_of_other_scripts_are_asked_for():
    lacking = untyped_on("gr", "A B Shift", "B = γ")
    assert "β" in lacking and "Ω" in lacking and "α" not in lacking and "a" not in lacking


def test_they_are_printed_with_runs_of_letters():
    russian = examined(ON_LAYOUT.format("ru", "A B", "A = ф"))
    assert "а to з" in "".join(coverage_lines([russian]))
