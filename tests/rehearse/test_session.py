"""What is typed at a terminal: which keys it presses, for how long, and what the screen says."""

import pytest

from matrixgen.cli.rehearse_screen import screen
from matrixgen.rehearse.session import LiveRehearsal
from tests.examples.shipped import NAMES, example
from tests.firmware.pads import loader_pad, timed_pad
from tests.texts import keyboard_in

PLATE = "plate\n  line Esc A B Shift K1 Equal\n"


def session(text=PLATE, layers="\nlayer base\n  K1 = C\n"):
    return LiveRehearsal(keyboard_in(text + layers))


def reports(one):
    return [(report.at_ms, report.report.words) for report in one.reports]


def typed(one, letters):
    for letter in letters:
        one.type_letter(letter)
    one.pass_ms(500)
    return [words for _, words in reports(one)]


def test_a_letter_presses_the_key_of_its_name_and_lets_it_go():
    one = session()
    one.type_letter("a")
    one.pass_ms(200)
    assert reports(one) == [(0, "A down"), (66, "nothing down")]


def test_a_capital_or_a_sign_takes_the_plate_s_shift():
    assert typed(session(), "A") == ["Shift down", "Shift+A down", "Shift down", "nothing down"]
    assert typed(session(), "+")[1] == "Shift+Equal down"
    assert typed(session("plate\n  line A\n", ""), "A") == []


def test_a_key_without_a_usage_is_found_by_its_base_layer():
    assert typed(session(), "c") == ["C down", "nothing down"]


def test_a_keypad_is_typed_on_where_it_is_all_there_is():
    pad = session("plate\n  line Keypad7 KeypadAsterisk KeypadEnter\n", "")
    assert typed(pad, "7*") == [
        "Keypad7 down",
        "nothing down",
        "KeypadAsterisk down",
        "nothing down",
    ]
    pad.type_key("Enter")
    pad.pass_ms(50)
    assert reports(pad)[-1][1] == "KeypadEnter down"


@pytest.mark.parametrize("letter", ["z", "ß", "é", "字"])
def test_a_letter_that_no_key_has_is_said(letter):
    one = session()
    assert typed(one, letter) == []
    assert f"`{letter}`" in one.message


def test_a_letter_that_repeats_too_fast_is_not_saved_up():
    assert len(typed(session(), "ab" * 50)) <= 10
    one = session()
    for _ in range(100):
        one.type_letter("a")
    assert len(one.rehearsal.planned) <= 14


def test_keys_may_stay_down_until_they_are_typed_again():
    one = session()
    one.toggle_stay()
    assert typed(one, "ab") == ["A down", "A+B down"]
    assert typed(one, "a")[2:] == ["B down"]
    one.toggle_stay()
    assert typed(one, "b")[3:] == ["nothing down"]


def test_a_capital_stays_down_with_its_shift_and_both_are_let_go():
    one = session()
    one.toggle_stay()
    assert typed(one, "A") == ["Shift down", "Shift+A down"]
    assert typed(one, "A")[-1] == "nothing down"


def line(one, text):
    for letter in f":{text}":
        one.type_letter(letter)
    one.type_key("Enter")


def test_a_line_after_a_colon_is_steps_of_a_script():
    one = session()
    line(one, "+A wait 100 -A B")
    one.pass_ms(400)
    assert reports(one)[:3] == [(0, "A down"), (106, "nothing down"), (107, "B down")]


def test_what_a_line_presses_is_down_until_it_is_let_go():
    one = session()
    line(one, "+A")
    one.pass_ms(2)
    line(one, "+A")
    assert "`A` is down" in one.message
    line(one, "-A")
    one.pass_ms(50)
    assert reports(one)[-1][1] == "nothing down"


def test_a_wait_that_nothing_follows_holds_no_letter_up():
    one = session()
    line(one, "wait 60000")
    assert typed(one, "a") == ["A down", "nothing down"]


def test_a_line_can_be_edited_and_given_up():
    one = session()
    for letter in ":+B":
        one.type_letter(letter)
    one.type_key("Backspace")
    one.type_letter("A")
    assert one.line == "+A"
    one.type_key("Escape")
    assert one.line is None and not one.leaves
    one.type_letter(":")
    one.type_key("Backspace")
    assert one.line is None


def test_escape_twice_leaves_and_once_is_a_key():
    one = session()
    one.type_key("Escape")
    one.pass_ms(50)
    assert reports(one)[-1][1] == "Escape down" and not one.leaves
    one.type_letter("a")
    one.type_key("Escape")
    assert not one.leaves
    one.type_key("Escape")
    assert one.leaves


def test_a_keyboard_that_became_its_boot_loader_is_plugged_in_anew():
    one = LiveRehearsal(loader_pad())
    line(one, "+More B")
    one.pass_ms(20)
    assert "boot loader" in one.message
    assert one.rehearsal.machine.closed == set() and one.fingers.down == set()


def test_time_in_which_nothing_ran_is_left_out():
    one = session()
    one.pass_ms(10**9)
    assert one.rehearsal.now_ms == 1000


def test_the_screen_shows_names_actions_and_what_is_down():
    one = session(PLATE, "\nlayer base\n  K1 = hold layer more\nlayer more\n  A = Ctrl+C\n")
    line(one, "+K1 +B")
    one.pass_ms(20)
    shown = screen(one, 80, 24)
    assert len(shown) == 24 and all(len(line) < 80 for line in shown)
    assert "*K1" in shown[3] and "*B" in shown[3] and " A " in shown[3]
    assert "Ctrl+C" in shown[4] and ">more" in shown[4]
    assert "layers: more, base" in shown and "down: B, K1" in shown
    assert "       1 ms  report: B down" in shown


def test_the_screen_shows_what_is_undecided_and_since_when():
    one = LiveRehearsal(timed_pad())
    line(one, "+A")
    one.pass_ms(90)
    shown = screen(one, 80, 40)
    assert any("?A" in line for line in shown)
    assert "undecided: A, pressed 90 ms ago: tap A, hold layer symbols" in shown
    one.pass_ms(200)
    assert "last press: A, decided: hold layer symbols" in screen(one, 80, 40)


def test_the_screen_shows_what_is_to_come_and_what_waits_for_the_next_key():
    one = LiveRehearsal(timed_pad())
    line(one, "OnceShift wait 300 +J")
    one.pass_ms(100)
    shown = screen(one, 80, 40)
    assert "to come: +J" in shown and "for the next key: Shift" in shown


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("size", [(80, 24), (200, 60), (40, 12), (3, 2), (1, 1)])
def test_the_screen_has_just_the_terminal_s_size(name, size):
    shown = screen(LiveRehearsal(example(name).keyboard), *size)
    assert len(shown) == size[1]
    assert all(len(line) <= max(size[0] - 1, 1) for line in shown)
