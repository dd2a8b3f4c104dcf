"""What the second and third press of a key do: when each is decided, and what waits."""

from __future__ import annotations

import pytest

from matrixgen.model.actions import (
    FirstSecond,
    HoldLayer,
    Instead,
    InTurn,
    Press,
    Struck,
    TapHold,
    WithModifier,
)
from matrixgen.usages.key_stroke import KeyStroke
from tests.firmware.pads import LEFT_CTRL, LEFT_SHIFT, SHIFT
from tests.firmware.scripts import ONE, UP, A, B, J, K, down

C = 0x06
TWO = FirstSecond(Press(A), Press(B))
THREE = FirstSecond(Press(A), Press(B), Press(C), 200)
HELD = down(modifiers=LEFT_SHIFT)


@pytest.fixture
def type_(fingers):
    return fingers({"F": TWO, "T": THREE, "S": Press(0, LEFT_SHIFT)})


def test_one_press_is_the_first_once_its_time_is_over(type_) -> None:
    assert type_("+F", 30, "-F", 270) == []
    assert type_(1) == [down(A), UP]


def test_it_is_held_as_long_as_it_is_pressed(type_) -> None:
    assert type_("+F", 300) == []
    assert type_(700) == [down(A)]
    assert type_("-F", 9) == [UP]


def test_a_second_press_within_the_time_is_the_second_at_once(type_) -> None:
    type_("+F", 30, "-F", 200)
    assert type_("+F", 1) == [down(B)]
    assert type_(900) == []
    assert type_("-F", 9) == [UP]


@pytest.mark.parametrize(("gap", "reports"), [(299, [down(B)]), (300, [down(A), UP])])
def test_the_time_is_from_press_to_press(type_, gap, reports) -> None:
    assert type_("+F", 30, "-F", gap - 30, "+F", 20) == reports


def test_where_there_is_a_third_the_second_waits_as_well(type_) -> None:
    tap = ("+T", 20, "-T", 100)
    assert type_(*tap, *tap, 80) == []
    assert type_(1) == [down(B), UP]
    assert type_(*tap, *tap, "+T", 400) == [down(C)]
    assert type_("-T", 9) == [UP]


def test_a_second_press_that_is_held_is_the_second(type_) -> None:
    assert type_("+T", 20, "-T", 100, "+T", 200) == []
    assert type_(300) == [down(B)]


def test_a_fourth_press_begins_anew(type_) -> None:
    tap = ("+T", 20, "-T", 60)
    assert type_(*tap, *tap, *tap, *tap) == [down(C), UP]
    assert type_(150) == [down(A), UP]


def test_another_key_decides_at_once_and_comes_after(type_) -> None:
    assert type_("+F", 20, "-F", 20, "+J", 9) == [down(A), UP, down(J)]
    assert type_("-J", 9, "+F", 50, "+K", 9) == [UP, down(A), down(A, K)]


def test_another_key_between_makes_it_the_first_twice(type_) -> None:
    type_("+F", 20, "-F", 20, "+J", 9, "-J", 9)
    assert type_("+F", 100) == []
    assert type_(201) == [down(A)]


def test_another_key_is_in_the_layer_that_it_holds(fingers) -> None:
    keys = {"F": FirstSecond(HoldLayer("more"), Press(B))}
    type_ = fingers(keys, layers={"more": {"J": Press(ONE)}})
    assert type_("+F", 20, "+J", 9) == [down(ONE)]


def test_a_letter_that_was_down_before_leaves_at_once(type_) -> None:
    type_("+J", 50)
    assert type_("+F", 20, "-J", 9) == [UP]


def test_a_modifier_waits_and_is_let_go_between_the_presses(type_) -> None:
    assert type_("+S", 20, "+F", 20, "-S", 20) == [HELD]
    assert type_("-F", 20, "+F", 9) == [UP, down(B)]
    assert type_("-F", 9, "+S", 20, "+F", 20, "-S", 20, "-F", 20) == [UP, HELD]
    assert type_(300) == [down(A, modifiers=LEFT_SHIFT), down(A), UP]


def test_the_layer_of_the_first_press_counts_though_its_key_is_let_go(fingers) -> None:
    keys = {"F": Press(K), "N": HoldLayer("more")}
    type_ = fingers(keys, layers={"more": {"F": TWO}})
    assert type_("+N", 20, "+F", 20, "-N", 20, "-F", 20, "+F", 9) == [down(B)]
    assert type_("-F", 9, "+F", 9) == [UP, down(K)]


def test_a_slow_host_makes_no_difference(fingers) -> None:
    type_ = fingers({"F": TWO, "M": Press(C)})
    pair = type_.pair
    for key in ("+M", "-M", "+F", "-F", "+F", "-F"):
        pair.close(key[1:], key[0] == "+")
        for _ in range(20):
            pair.step()
            pair.advance(1)
    for _ in range(700):  # the host took nothing, and long after all that it does
        pair.step()
        pair.advance(1)
    assert type_(9) == [down(C), UP, down(B), UP]


def test_bounce_is_no_second_press(type_) -> None:
    assert type_("+F", 3, "-F", 2, "+F", 3, "-F", 3, "+F", 288) == []
    assert type_(9) == [down(A)]


def test_it_waits_behind_a_tap_and_hold_and_that_waits_behind_it(fingers) -> None:
    held = TapHold(Press(K), Press(0, LEFT_CTRL), decided_by="time", roll_ms=0)
    type_ = fingers({"F": TWO, "H": held})
    assert type_("+H", 20, "+F", 20, "-F", 20, "+F", 20, "-F", 119) == []
    assert type_(9) == [
        down(modifiers=LEFT_CTRL),
        down(B, modifiers=LEFT_CTRL),
        down(modifiers=LEFT_CTRL),
    ]
    type_("-H", 9)
    assert type_("+F", 20, "+H", 20) == [down(A)]
    assert type_("-H", 9) == [down(A, K), down(A)]


def test_a_part_may_go_by_a_modifier(fingers) -> None:
    erase = WithModifier(Press(A), (Instead(SHIFT, Press(B)),))
    type_ = fingers({"F": FirstSecond(Press(C), erase), "S": Press(0, LEFT_SHIFT)})
    assert type_("+S", 20, "+F", 20, "-F", 20, "+F", 9) == [HELD, UP, down(B)]


def test_a_part_may_be_typed_in_turn_and_stopped(fingers) -> None:
    turn = InTurn(tuple(Struck(KeyStroke(one)) for one in (A, B, C, J)))
    type_ = fingers({"F": FirstSecond(Press(K), turn)})
    assert type_("+F", 20, "-F", 20, "+F", 5, "-F", 2) == [down(A), UP]
    assert type_(9, "+F", 90)[-1] == UP
    assert type_("-F", 20, "+F", 400) == [down(K)]
