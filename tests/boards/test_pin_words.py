"""A pin that a program writes into a file is named as the file names its others."""

import pytest

from matrixgen.boards import builtin_profile, word_for
from matrixgen.boards.builtin import builtin_names
from matrixgen.boards.pin_words import likely_pins
from tests.emulators.keyboards import profile


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["GPIO2", "GPIO3"], "GPIO14"),
        (["GP2", "GP3"], "GP14"),
        (["GPIO2", "GP3"], "GP14"),
        (["GP2", "GPIO14"], "GPIO14"),
        (["nowhere"], "GPIO14"),
        ([], "GPIO14"),
    ],
)
def test_a_pin_is_named_as_the_others_are(words, expected):
    board = profile("rp2040-40pin")
    pin = board.pin("GP14")
    assert pin is not None
    assert word_for(pin, board, words) == expected


@pytest.mark.parametrize("name", builtin_names())
def test_a_pin_is_found_as_other_boards_print_it(name):
    profile = builtin_profile(name)
    for pin in profile.usable_pins:
        said = [f"D{pin.label}"] if (pin.label or "").isdigit() else []
        said += [pin.label[:2]] if (pin.label or "")[:2] in ("TX", "RX") else []
        said += [pin.name[1:]] if pin.name.startswith("P") else []
        for word in said:
            assert profile.pin(word) or pin in likely_pins(word, profile), (name, word)


@pytest.mark.parametrize(
    ("name", "word", "meant"),
    [
        ("stick-32u4", "D2", ["PD1", "PD2"]),
        ("stick-32u4", "tx", ["PD3"]),
        ("stick-32u4", "RX0", ["PD2"]),
        ("atmega32u4", "d2", ["PD2"]),
        ("samd21g18a", "PA2", ["PA02"]),
        ("nrf52840", "P0.4", ["P0.04"]),
        ("rp2040", "GP2", ["GPIO2"]),
        ("rp2040", "2", []),
        ("stick-32u4", "TXLED", []),
        ("stick-32u4", "D99", []),
        ("stick-32u4", "B0", []),  # a reserved one
    ],
)
def test_a_word_for_a_pin_means_these_and_no_others(name, word, meant):
    assert [pin.name for pin in likely_pins(word, builtin_profile(name))] == meant
