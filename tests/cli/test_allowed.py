"""`allow` hides a warning at one place or in the whole file; `--allowed` tells what it hides."""

import pytest

from tests.texts import GOOD

TWO_DUTIES = GOOD.replace("atmega32u4", "board-f103").replace("PD0", "PA0")
TWO_DUTIES = TWO_DUTIES.replace("PB0", "PC14").replace("PB1", "PC15")


def with_allow(*allows):
    lines = "".join(f"  allow {allow}\n" for allow in allows)
    return TWO_DUTIES.replace("board-f103\n", f"board-f103\n{lines}")


def told(program, *allows):
    ran = program("check", "--allowed", program.write("pad.keys", with_allow(*allows)))
    return [line for line in ran.out.splitlines() if "allowed:" in line or ": warning[" in line]


def test_without_a_place_all_warnings_of_a_kind_are_hidden(program):
    assert told(program, "pin-with-second-function") == [
        "allowed: 2 x pin-with-second-function, lines 12, 13"
    ]


def test_with_a_place_a_later_mistake_of_that_kind_is_told(program):
    lines = told(program, "pin-with-second-function PC14")
    assert len(lines) == 2
    assert "`c1` is on `PC15 (C15)`" in lines[0]
    assert lines[1] == "allowed: 1 x pin-with-second-function, line 12"


def test_places_may_be_named_one_by_one_or_by_their_label_on_the_board(program):
    assert len(told(program, "pin-with-second-function PC14 PC15")) == 1
    ran = program(
        "check", program.write("pad.keys", with_allow("pin-with-second-function C14 C15"))
    )
    assert ran.out.endswith("can be planned, not built: no firmware for board-f103 yet\n")


def test_nothing_is_said_of_it_unasked(program):
    name = program.write("pad.keys", with_allow("pin-with-second-function"))
    assert "allowed" not in program("check", name).out


@pytest.mark.parametrize("place", ["/", ".", "\\", "-", "é", "a" * 300])
def test_a_place_may_be_any_key(program, place):
    text = GOOD.replace("atmega32u4\n", f"atmega32u4\n  allow keys-overlap {place}\n")
    ran = program("check", program.write("pad.keys", text))
    assert ran.status == 0
    assert "warning[allow-without-effect]" in ran.out
