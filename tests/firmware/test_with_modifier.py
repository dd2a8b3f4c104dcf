"""What a key does with a modifier: which reports leave, and in which order."""

from __future__ import annotations

import pytest

from matrixgen.model.actions import (
    Instead,
    InTurn,
    Media,
    OnceModifiers,
    Press,
    Struck,
    TapHold,
    WithModifier,
)
from matrixgen.usages.key_stroke import KeyStroke
from tests.firmware.pads import CTRL, DELETE, LEFT_CTRL, LEFT_SHIFT, SHIFT
from tests.firmware.scripts import CTRL_ON_A, UP, A, J, K, down

RIGHT_SHIFT = LEFT_SHIFT << 4
BACKSPACE, DEL = 0x2A, 0x4C
HELD, RIGHT_HELD = down(modifiers=LEFT_SHIFT), down(modifiers=RIGHT_SHIFT)
KEYS = {
    "E": DELETE,
    "S": Press(0, LEFT_SHIFT),
    "R": Press(0, RIGHT_SHIFT),
    "C": Press(0, LEFT_CTRL),
    "O": OnceModifiers(LEFT_SHIFT),
}


@pytest.fixture
def type_(fingers):
    return fingers(KEYS)


def test_without_the_modifier_it_is_the_plain_key(type_) -> None:
    assert type_("+E", 9, "-E", 9) == [down(BACKSPACE), UP]
    assert type_("+C", 9, "+E", 9)[1:] == [down(BACKSPACE, modifiers=LEFT_CTRL)]


@pytest.mark.parametrize(("key", "held"), [("S", HELD), ("R", RIGHT_HELD)])
def test_with_it_the_modifier_is_up_before_the_key_goes_down_and_comes_back(type_, key, held):
    assert type_(f"+{key}", 9, "+E", 900) == [held, UP, down(DEL)]
    assert type_("-E", 9) == [held]
    assert type_("+J", 9, "-J", 9) == [held[:1] + down(J)[1:], held]


def test_other_modifiers_stay(type_) -> None:
    type_("+S", 9, "+C", 9)
    ctrl = down(modifiers=LEFT_CTRL)
    assert type_("+E", 9) == [ctrl, down(DEL, modifiers=LEFT_CTRL)]
    assert type_("-C", 9, "-E", 9) == [down(DEL), HELD]


def test_a_modifier_that_is_let_go_meanwhile_does_not_come_back(type_) -> None:
    type_("+S", 9, "+E", 9)
    assert type_("-S", 9) == []
    assert type_("-E", 9) == [UP]


def test_one_that_is_pressed_meanwhile_is_up_until_the_key_is_let_go(type_) -> None:
    type_("+S", 9, "+E", 9)
    assert type_("+R", 9, "-S", 9) == []
    assert type_("-E", 9) == [RIGHT_HELD]


def test_another_key_that_types_ends_it_first(type_) -> None:
    type_("+S", 9, "+E", 9)
    assert type_("+J", 9) == [HELD, down(J, modifiers=LEFT_SHIFT)]
    assert type_("-E", 9) == []
    assert type_("-J", 9) == [HELD]


def test_one_that_types_nothing_does_not(type_) -> None:
    type_("+S", 9, "+E", 9)
    assert type_("+C", 9) == [down(DEL, modifiers=LEFT_CTRL)]


def test_two_of_them_one_after_the_other(fingers) -> None:
    other = WithModifier(Press(A), (Instead(CTRL | SHIFT, Press(K)),))
    type_ = fingers({**KEYS, "F": other})
    type_("+S", 9, "+C", 9, "+E", 9)
    both, ctrl = LEFT_CTRL | LEFT_SHIFT, LEFT_CTRL
    assert type_("+F", 9) == [down(modifiers=both), UP, down(K)]
    assert type_("-E", 9, "-F", 9) == [down(modifiers=both)]
    assert type_("-S", 9, "+F", 9) == [down(modifiers=ctrl), down(A, modifiers=ctrl)]


def test_one_that_waits_for_the_next_key_is_used_up(type_) -> None:
    assert type_("+O", 9, "-O", 9, "+E", 9) == [HELD, UP, down(DEL)]
    assert type_("-E", 9, "+E", 9) == [UP, down(BACKSPACE)]


def test_one_that_stays_until_it_is_pressed_again_comes_back(type_) -> None:
    type_("+O", 9, "-O", 9, "+O", 9, "-O", 9)
    assert type_("+E", 9, "-E", 9) == [UP, down(DEL), HELD]


def test_what_another_key_uses_up_is_none_of_its_business(type_) -> None:
    type_("+O", 9, "-O", 9, "+J", 9)
    assert type_("+E", 9) == [down(J, BACKSPACE)]


def test_its_own_modifier_is_sent(fingers) -> None:
    type_ = fingers({**KEYS, "P": WithModifier(Press(A), (Instead(SHIFT, Press(K, LEFT_SHIFT)),))})
    assert type_("+R", 9, "+P", 9) == [RIGHT_HELD, UP, down(K, modifiers=LEFT_SHIFT)]
    assert type_("-P", 9, "-R", 9) == [RIGHT_HELD, UP]
    assert type_("+S", 9, "+P", 9) == [HELD, down(K, modifiers=LEFT_SHIFT)]
    assert type_("-S", 9, "-P", 9) == [UP]


def test_a_tap_goes_by_what_was_down_as_it_was_pressed(fingers) -> None:
    type_ = fingers({**KEYS, "T": TapHold(DELETE, Press(0, LEFT_CTRL), roll_ms=0)})
    type_("+S", 9, "+T", 20)
    assert type_("-S", 20) == []
    assert type_("-T", 9) == [UP, down(DEL), UP]


def test_the_hold_of_another_key_is_a_modifier(fingers) -> None:
    type_ = fingers({**CTRL_ON_A, "E": WithModifier(Press(K), (Instead(CTRL, Press(J)),))})
    assert type_("+A", 300, "+E", 9) == [down(modifiers=LEFT_CTRL), UP, down(J)]


def test_a_media_key_is_sent_without_it_too(fingers) -> None:
    mute = WithModifier(Press(A), (Instead(SHIFT, Media(0x0C, 0xE2)),))
    type_ = fingers({**KEYS, "M": mute})
    assert type_("+S", 9, "+M", 9, "-M", 9) == [HELD, UP, HELD]
    assert type_.media == [b"\x01\x01", b"\x01\x00"]


def test_what_is_typed_in_turn_needs_nothing_hidden(fingers) -> None:
    turn = InTurn((Struck(KeyStroke(A)), Struck(KeyStroke(K))))
    type_ = fingers({**KEYS, "T": WithModifier(Press(A), (Instead(SHIFT, turn),))})
    assert type_("+S", 9, "+T", 90) == [HELD, UP, down(A), UP, down(K), UP, HELD]
    assert type_("-T", 9, "-S", 9) == [UP]


def test_caps_lock_is_not_shift(type_) -> None:
    type_.pair.leds(0x02)
    assert type_("+E", 9) == [down(BACKSPACE)]
