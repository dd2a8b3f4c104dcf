"""Keys that are one action: when that is decided, when it ends, and what is in order meanwhile."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.model import (
    ChangeBase,
    HoldLayer,
    InTurn,
    OnceModifiers,
    Press,
    TapHold,
)
from matrixgen.model.actions import Struck
from matrixgen.usages.key_stroke import KeyStroke
from tests.amounts import amount
from tests.firmware.chords import chords
from tests.firmware.host_build import host_view
from tests.firmware.pads import LEFT_CTRL, LEFT_SHIFT, pairs_pad, small_pad, together_pad
from tests.firmware.scripts import ONE, TWO, UP, A, B, J, K, down
from tests.firmware.test_engine_and_oracle import Pair

ESC, TAB, ENTER, C = 0x29, 0x2B, 0x28, 0x06
ESCAPE = down(ESC)
LETTERS = {"A": Press(A), "B": Press(B)}
JK = {"base": [("J K", Press(ESC), 40)]}
SEEDS = amount("MATRIXGEN_CHORDS", suite=6, long=2000)
TURNS = 60

BOARDS = {
    "together": together_pad,
    "without texts": lambda: together_pad(in_turn=False),
    "pairs": pairs_pad,
}


@pytest.fixture(scope="module", params=BOARDS)
def pair(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Pair:
    return Pair(BOARDS[request.param](), tmp_path_factory.mktemp("together"))


def test_hands_that_press_sets_give_the_model_s_reports(pair: Pair) -> None:
    for seed in range(SEEDS):
        pair.restart()
        chords(pair, Random(seed), TURNS)
        pair.let_everything_go()


# --- when it is decided ---


@pytest.mark.parametrize(("first", "second"), ["JK", "KJ"])
def test_a_whole_set_is_its_action_at_once_in_any_order(fingers, first, second) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_(f"+{first}", 39) == []
    assert type_(f"+{second}", 1) == [ESCAPE]


def test_a_key_alone_is_late_by_the_time_and_no_other_key_is(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_("+J", 40) == []
    assert type_(1) == [down(J)]
    assert type_("+A", 1) == [down(A, J)]


def test_a_second_key_that_comes_as_the_time_is_over_is_a_key_by_itself(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_("+J", 40, "+K", 1) == [down(J), down(J, K)]


def test_a_key_of_no_set_decides_and_comes_after(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_("+J", 10, "+A", 1) == [down(J), down(A, J)]


def test_letting_go_decides_as_soon_as_the_release_counts(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_("+J", 10, "-J", 6) == []
    assert type_(1) == [down(J), UP]


def test_what_was_down_before_and_goes_up_waits_in_order(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    assert type_("+A", 50) == [down(A)]
    assert type_("+J", 5, "-A", 35) == []
    assert type_(1) == [down(A, J), down(J)]


def test_a_larger_set_comes_before_a_smaller_one_within_its_time(fingers) -> None:
    sets = {"base": [("J K", Press(ESC), 40), ("J K A", Press(TAB), 60)]}
    type_ = fingers(LETTERS, together=sets)
    assert type_("+J", 10, "+K", 49) == []
    assert type_("+A", 1) == [down(TAB)]
    assert type_("-J", "-K", "-A", 10) == [UP]
    assert type_("+J", 10, "+K", 50) == []
    assert type_(1) == [ESCAPE]


def test_what_is_left_over_may_begin_another_set(fingers) -> None:
    sets = {
        "base": [("J K", Press(ESC), 40), ("A B", Press(TAB), 40), ("J K A B", Press(ENTER), 20)]
    }
    type_ = fingers(LETTERS, together=sets)
    assert type_("+J", 1, "+K", 1, "+A", 18) == []
    assert type_(1) == [ESCAPE]
    assert type_("+B", 1) == [down(ESC, TAB)]


def test_a_key_that_is_down_cannot_come_any_more(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    type_("+J", 60)
    assert type_("+K", 1) == [down(J, K)]


def test_times_are_those_of_first_readings_however_slow_the_host_is(tmp_path) -> None:
    pair = Pair(pairs_pad(), tmp_path)
    for key, later_ms in (("D", 1), ("A", 39), ("B", 200)):
        pair.close(key, True)
        pair.step()
        pair.advance(later_ms)
    taken = []
    for _ in range(8):
        taken.append(pair.take())
        pair.step()
    assert [one for one in taken if one] == [down(0x07), down(0x07, ESC)]


# --- when it ends ---


@pytest.mark.parametrize(("first", "second"), ["JK", "KJ"])
def test_it_ends_with_the_first_key_that_goes_up_and_the_other_is_dead(
    fingers, first, second
) -> None:
    type_ = fingers(LETTERS, together=JK)
    type_("+J", "+K", 1)
    assert type_(f"-{first}", 7) == [UP]
    assert type_(60, f"-{second}", 20) == []
    assert type_(f"+{second}", 41) == [down(J if second == "J" else K)]


def test_one_that_is_pressed_again_while_the_other_is_down_is_itself_at_once(fingers) -> None:
    type_ = fingers(LETTERS, together=JK)
    type_("+J", "+K", 1, "-K", 10)
    assert type_("+K", 1) == [down(K)]
    assert type_("-J", 10) == []


def test_a_usage_that_a_set_shares_stays_down_until_both_are_up(fingers) -> None:
    type_ = fingers({**LETTERS, "C": Press(ESC)}, together=JK)
    type_("+C", "+J", "+K", 1)
    assert type_("-J", 10, "-K", 10) == []
    assert type_("-C", 10) == [UP]


# --- with other behaviours ---


def test_a_tap_of_a_set_is_any_key_that_goes_up_and_a_hold_counts_from_the_first(fingers) -> None:
    action = TapHold(Press(ESC), Press(0, LEFT_CTRL))
    type_ = fingers(LETTERS, together={"base": [("J K", action, 40)]})
    assert type_("+J", 20, "+K", 30, "-K", 6) == []
    assert type_(2) == [ESCAPE, UP]
    type_("-J", 300)
    assert type_("+J", 20, "+K", 180) == []
    assert type_(1) == [down(modifiers=LEFT_CTRL)]
    assert type_("-J", 7) == [UP]


def test_a_tap_and_hold_key_alone_is_decided_by_its_own_times(fingers) -> None:
    action = TapHold(Press(A), Press(0, LEFT_CTRL))
    type_ = fingers({"A": action}, together={"base": [("A K", Press(ESC), 40)]})
    assert type_("+A", 20, "-A", 6) == []
    assert type_(2) == [down(A), UP]
    type_(300)
    assert type_("+A", 200) == []
    assert type_(1) == [down(modifiers=LEFT_CTRL)]


@pytest.mark.parametrize("released", "JK")
def test_any_key_of_a_set_that_only_types_goes_up_before_a_press_is_decided(
    fingers, released
) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL))}, together=JK)
    assert type_("+J", "+K", 500) == [ESCAPE]
    assert type_("+A", 20, f"-{released}", 10) == [UP]


def test_a_layer_that_a_set_holds_ends_with_it(fingers) -> None:
    sets = {"base": [("J K", HoldLayer("f"), 40)]}
    type_ = fingers(LETTERS, layers={"f": {"A": Press(ONE)}}, together=sets)
    type_("+J", "+K", 1)
    assert type_("+A", 1) == [down(ONE)]
    assert type_("-J", 10, "-A", 10, "+A", 1) == [UP, down(A)]


def test_a_once_set_is_for_the_next_key(fingers) -> None:
    sets = {"base": [("J K", OnceModifiers(LEFT_SHIFT), 40)]}
    type_ = fingers(LETTERS, together=sets)
    assert type_("+J", "+K", 20, "-J", 20, "-K", 20) == [down(modifiers=LEFT_SHIFT)]
    assert type_("+A", 10, "-A", 10) == [down(A, modifiers=LEFT_SHIFT), UP]


def test_what_a_set_types_in_turn_is_stopped_by_its_first_key_of_the_plate(fingers) -> None:
    turn = InTurn(tuple(Struck(KeyStroke(usage)) for usage in (A, B) * 20))
    type_ = fingers(LETTERS, together={"base": [("K J", turn, 40)]})
    type_("+J", "+K", 20, "-J", "-K", 20, "+J", 20)
    assert type_(200) == []


# --- layers ---


LAYERS = {"f": {"K": Press(TWO)}, "g": {"A": Press(ONE)}}
HOLDS = {"C": HoldLayer("f"), "B": HoldLayer("g")}


def test_a_cell_above_covers_a_set_and_a_layer_that_leaves_its_keys_alone_does_not(fingers) -> None:
    type_ = fingers({**LETTERS, **HOLDS}, layers=LAYERS, together=JK)
    type_("+C", 60)
    assert type_("+K", 1) == [down(TWO)]
    assert type_("+J", 1) == [down(J, TWO)]
    type_("-C", "-J", "-K", 60)
    type_("+B", 60)
    assert type_("+K", "+J", 1) == [ESCAPE]


def test_the_same_set_above_covers_one_even_with_a_shorter_time(fingers) -> None:
    sets = {**JK, "g": [("K J", Press(TAB), 10)]}
    type_ = fingers({**LETTERS, **HOLDS}, layers=LAYERS, together=sets)
    type_("+B", 60)
    assert type_("+J", 5, "+K", 1) == [down(TAB)]
    type_("-J", "-K", 60)
    assert type_("+J", 20, "+K", 60) == [down(J), down(J, K)]


def test_a_changed_base_lies_below_other_layers_and_so_do_its_sets(fingers) -> None:
    sets = {"f": [("J A", Press(ESC), 40)], "g": [("J A", Press(TAB), 40)]}
    base = {"C": ChangeBase("g"), "B": HoldLayer("f"), "A": Press(A)}
    type_ = fingers(base, layers={"f": {}, "g": {}}, together=sets)
    type_("+C", 10, "-C", 20)
    assert type_("+J", "+A", 1) == [down(TAB)]
    type_("-J", "-A", 20, "+B", 60)
    assert type_("+J", "+A", 1) == [ESCAPE]


def test_a_keyboard_without_sets_has_no_trace_of_them() -> None:
    tree = firmware_tree(host_view(small_pad()))
    ours = ("sets of keys", "TOGETHER", "together_")
    found = {word for word in ours for text in tree.values() if word.encode() in text}
    assert not found and not any("together" in name for name in tree)
