"""A pin that a program writes into a file is named as the file names its others."""

import pytest

from matrixgen.boards import word_for
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
