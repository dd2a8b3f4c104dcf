"""Keys that know time and other keys, each promise by itself; engine and model are both asked."""

from __future__ import annotations

import pytest

from matrixgen.model.actions import (
    ChangeBase,
    HoldLayer,
    LatchLayer,
    OnceLayer,
    OnceModifiers,
    Press,
    TapHold,
    UnlatchLayers,
)
from tests.firmware.pads import LEFT_CTRL, LEFT_SHIFT
from tests.firmware.scripts import CTRL_ON_A, DEBOUNCE_MS, ONE, TWO, UP, A, B, J, K, down

# --- the true order of fingers ---


def test_a_letter_right_after_a_hold_key_is_let_go_is_not_of_its_layer(fingers) -> None:
    type_ = fingers({"Fn": HoldLayer("f")}, layers={"f": {"J": Press(ONE)}})
    assert type_("+Fn", 20, "-Fn", 1, "+J", 20, "-J", 20) == [down(J), UP]


def test_a_press_in_the_very_millisecond_of_a_release_may_come_first(fingers) -> None:
    type_ = fingers({"Fn": HoldLayer("f")}, layers={"f": {"J": Press(ONE)}})
    assert type_("+Fn", 20, "-Fn", "+J", 30, "-J", 30) in ([down(J), UP], [down(ONE), UP])


def test_a_release_that_was_chatter_holds_nobody_up_for_longer_than_it_lasts(fingers) -> None:
    type_ = fingers({"Fn": HoldLayer("f")}, layers={"f": {"J": Press(ONE)}})
    assert type_("+Fn", 20, "-Fn", 1, "+J", 1) == []
    assert type_("+Fn", 1) == [down(ONE)]


def test_releases_leave_in_their_order_too(fingers) -> None:
    type_ = fingers({})
    type_("+J", "+K", 10)
    assert type_("-K", 2, "-J", 20) == [down(J), UP]


def test_a_press_waits_for_an_earlier_release_no_longer_than_the_debounce_time(fingers) -> None:
    type_ = fingers({})
    type_("+J", 10)
    assert type_("-J", 1, "+K", DEBOUNCE_MS - 1) == []
    assert type_(2) == [UP, down(K)]


def test_a_contact_closed_for_one_reading_types_a_key(fingers) -> None:
    type_ = fingers({})
    assert type_("+J", 1, "-J", 20) == [down(J), UP]


def test_a_press_time_lets_only_longer_presses_count(fingers) -> None:
    type_ = fingers({}, press_ms=3)
    assert type_("+J", 2, "-J", 20) == []
    assert type_("+J", 4) == []  # read first at the end of its millisecond: 3.0 ms so far
    assert type_(1, "-J", 20) == [down(J), UP]


@pytest.mark.parametrize("phase", range(10))
def test_a_press_shorter_than_its_time_never_counts(fingers, phase: int) -> None:
    """A millisecond has ten scans here; the key is closed for 2.0 ms, from any of them on."""
    pair = fingers({}, press_ms=2).pair
    for scan in range(300):
        if scan % 10 == 0:
            pair.advance(1)
        pair.close("J", phase <= scan < phase + 20)
        pair.step()
        assert pair.take() is None


def test_times_in_parts_of_a_millisecond_are_never_cut_short(fingers) -> None:
    type_ = fingers({}, press_ms=1.5, debounce_ms=2.5)
    assert type_("+J", 3) == []
    assert type_(1, "-J", 4) == [down(J)]
    assert type_(1) == [UP]


# --- tap and hold ---


def test_a_tap_is_told_when_the_key_is_let_go(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    assert type_("+A", 100) == []
    assert type_("-A", 20) == [down(A), UP]


def test_a_hold_is_told_after_its_time(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    assert type_("+A", 200) == []
    assert type_(1) == [down(modifiers=LEFT_CTRL)]
    assert type_("-A", 20) == [UP]


def test_another_key_pressed_and_let_go_meanwhile_makes_a_hold(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    assert type_("+A", 30, "+J", 30, "-J", 20) == [
        down(modifiers=LEFT_CTRL),
        down(J, modifiers=LEFT_CTRL),
        down(modifiers=LEFT_CTRL),
    ]


def test_another_key_that_outlasts_it_makes_a_tap(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    assert type_("+A", 30, "+J", 30, "-A", 20, "-J", 20) == [down(A), down(A, J), down(J), UP]


def test_a_key_that_was_down_before_makes_no_hold_by_going_up(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    type_("+J", 150)
    assert type_("+A", 30, "-J", 60, "-A", 20) == [UP, down(A), UP]


def test_by_press_another_key_makes_a_hold_at_once(fingers) -> None:
    key = TapHold(Press(A), Press(0, LEFT_CTRL), decided_by="press")
    type_ = fingers({"A": key})
    assert type_("+A", 30, "+J", 1) == [down(modifiers=LEFT_CTRL), down(J, modifiers=LEFT_CTRL)]


def test_by_time_no_other_key_makes_a_hold(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL), decided_by="time")})
    assert type_("+A", 30, "+J", 30, "-J", 30, "-A", 20) == [down(A), down(A, J), down(A), UP]


def test_a_key_that_follows_fast_is_part_of_a_roll(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL), roll_ms=100)})
    type_("+J", 40, "-J", 20)
    assert type_("+A", 1) == [down(A)]


def test_a_modifier_before_it_is_no_roll(fingers) -> None:
    type_ = fingers({**CTRL_ON_A, "S": Press(0, LEFT_SHIFT)})
    type_("+S", 20)
    assert type_("+A", 100) == []


def test_a_tap_and_then_a_hold_repeats_the_tap(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    type_("+A", 50, "-A", 60)
    assert type_("+A", 1) == [down(A)]
    assert type_(1000) == []


def test_and_not_if_another_key_was_typed_between(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL), roll_ms=0)})
    type_("+A", 50, "-A", 20, "+J", 20, "-J", 20)
    assert type_("+A", 100) == []


def test_a_hold_after_a_hold_is_a_hold_whatever_was_tapped_long_ago(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    type_("+A", 50, "-A", 500, "+A", 300, "-A", 50)
    assert type_("+A", 150) == []
    assert type_(60) == [down(modifiers=LEFT_CTRL)]


def test_a_key_of_the_same_hand_makes_a_tap_where_that_is_asked_for(fingers) -> None:
    key = TapHold(Press(A), Press(0, LEFT_CTRL), decided_by="press", other_hand=True)
    letters = {name: Press(0x10 + place) for place, name in enumerate("NOPQ")}
    type_ = fingers({"A": key, "B": Press(B), **letters})
    assert type_("+A", 30, "+B", 1) == [down(A), down(A, B)]
    type_("-A", "-B", 300)
    assert type_("+A", 30, "+L", 1)[0] == down(modifiers=LEFT_CTRL)


def test_a_layer_held_by_it_is_on_for_what_made_the_hold(fingers) -> None:
    key = TapHold(Press(A), HoldLayer("f"))
    type_ = fingers({"A": key}, layers={"f": {"J": Press(ONE)}})
    assert type_("+A", 30, "+J", 30, "-J", 20, "-A", 20) == [down(ONE), UP]


def test_two_such_keys_held_together_are_both_held(fingers) -> None:
    shift = TapHold(Press(B), Press(0, LEFT_SHIFT))
    type_ = fingers({**CTRL_ON_A, "B": shift})
    assert type_("+A", 10, "+B", 30, "+J", 30, "-J", 20) == [
        down(modifiers=LEFT_CTRL),
        down(modifiers=LEFT_CTRL | LEFT_SHIFT),
        down(J, modifiers=LEFT_CTRL | LEFT_SHIFT),
        down(modifiers=LEFT_CTRL | LEFT_SHIFT),
    ]


def test_a_slow_host_makes_no_difference_to_what_is_decided(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    pair = type_.pair
    pair.close("J", True)
    pair.step()  # its report stays with the host
    for key, closed, pause in (("A", True, 50), ("A", False, 500), ("K", True, 300)):
        pair.advance(150 if key == "A" and closed else 0)
        pair.close(key, closed)
        pair.step()
        pair.advance(pause)
        pair.step()
    got = []
    for _ in range(8):
        report = pair.take()
        got += [] if report is None else [report]
        pair.step()
    assert got == [down(J), down(J, A), down(J), down(J, K)]


# --- once ---


def test_a_once_modifier_is_for_the_next_key_only(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)})
    assert type_("+S", 10, "-S", 20) == [down(modifiers=LEFT_SHIFT)]
    assert type_("+J", 10, "-J", 10) == [down(J, modifiers=LEFT_SHIFT), UP]
    assert type_("+K", 10, "-K", 10) == [down(K), UP]


def test_it_does_not_colour_the_key_after_that_which_overlaps(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)})
    type_("+S", 10, "-S", 20)
    assert type_("+J", 10, "+K", 10) == [down(J, modifiers=LEFT_SHIFT), down(J, K)]


def test_pressed_twice_it_stays_until_pressed_again(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)})
    type_("+S", 10, "-S", 20, "+S", 10, "-S", 20)
    for _ in range(3):
        assert type_("+J", 10, "-J", 10)[0] == down(J, modifiers=LEFT_SHIFT)
    type_("+S", 10, "-S", 20)
    assert type_("+J", 10, "-J", 10)[0] == down(J)


def test_held_it_is_a_plain_modifier(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)})
    type_("+S", 10)
    for _ in range(2):
        assert type_("+J", 10, "-J", 10)[0] == down(J, modifiers=LEFT_SHIFT)
    assert type_("-S", 20) == [UP]
    assert type_("+J", 10)[0] == down(J)


def test_two_of_them_add_up(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT), "C": OnceModifiers(LEFT_CTRL)})
    type_("+S", 10, "-S", 20, "+C", 10, "-C", 20)
    assert type_("+J", 10)[0] == down(J, modifiers=LEFT_CTRL | LEFT_SHIFT)


def test_a_key_that_was_down_before_does_not_use_it_up(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)})
    type_("+J", 10, "+S", 10, "-S", 20, "-J", 20)
    assert type_("+K", 10)[0] == down(K, modifiers=LEFT_SHIFT)


def test_a_once_layer_is_for_the_next_key_only(fingers) -> None:
    type_ = fingers({"S": OnceLayer("f")}, layers={"f": {"J": Press(ONE), "K": Press(TWO)}})
    type_("+S", 10, "-S", 20)
    assert type_("+J", 10, "+K", 10) == [down(ONE), down(ONE, K)]


def test_it_ends_after_a_time_where_the_file_says_so(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)}, once_ms=500)
    type_("+S", 10, "-S", 7)
    assert type_(490) == []
    assert type_(10) == [UP]
    assert type_("+J", 10) == [down(J)]


def test_what_is_locked_does_not_end(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT)}, once_ms=500)
    type_("+S", 10, "-S", 20, "+S", 10, "-S", 20)
    assert type_(2000) == []


# --- layers ---


def test_a_layer_that_needs_two_is_on_while_both_are(fingers) -> None:
    type_ = fingers(
        {"X": HoldLayer("x"), "Y": LatchLayer("y")},
        layers={"x": {}, "y": {}, "both": {"J": Press(ONE)}},
        needs={"both": ("x", "y")},
    )
    type_("+Y", 10, "-Y", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(J)
    type_("+X", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(ONE)
    type_("-X", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(J)


def test_a_changed_base_lies_below_every_other_layer_and_stays(fingers) -> None:
    type_ = fingers(
        {"To": ChangeBase("c"), "Fn": HoldLayer("f")},
        layers={
            "f": {"J": Press(TWO)},
            "c": {"J": Press(ONE), "To": ChangeBase("base")},
        },
    )
    type_("+To", 10, "-To", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(ONE)
    assert type_("+K", 10, "-K", 10)[0] == down(K)
    assert type_("+Fn", 10, "+J", 10, "-J", 10, "-Fn", 10)[0] == down(TWO)
    type_("+To", 10, "-To", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(J)


LEFT_ON = {
    "a latch": {"To": LatchLayer("c")},
    "once, for the next key": {"To": OnceLayer("c")},
    "the base": {"To": ChangeBase("c")},
    "a hold": {"To": HoldLayer("c")},
}


@pytest.mark.parametrize("how", LEFT_ON)
def test_what_stays_on_by_itself_ends_with_unlatch_layers(fingers, how) -> None:
    type_ = fingers({**LEFT_ON[how], "Off": UnlatchLayers()}, layers={"c": {"J": Press(ONE)}})
    type_("+To", 10, *(() if how == "a hold" else ("-To", 20)))
    assert type_("+Off", 10, "-Off", 10) == []
    ends = how in ("a latch", "once, for the next key")
    assert type_("+J", 10, "-J", 10)[0] == down(J if ends else ONE)


def test_unlatch_layers_ends_every_one_and_what_was_pressed_twice(fingers) -> None:
    turns = {"X": LatchLayer("x"), "Y": OnceLayer("y"), "Off": UnlatchLayers()}
    type_ = fingers(turns, layers={"x": {"J": Press(ONE)}, "y": {"K": Press(TWO)}})
    type_("+X", 10, "-X", 10, *("+Y", 10, "-Y", 20) * 2)
    assert type_("+K", 10, "-K", 10) == [down(TWO), UP]
    assert type_("+J", 10, "-J", 10) == [down(ONE), UP]
    type_("+Off", 10, "-Off", 10)
    assert type_("+K", 10, "-K", 10, "+J", 10, "-J", 10) == [down(K), UP, down(J), UP]
    type_("+X", 10, "-X", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(ONE), "and can be turned on anew"


def test_unlatch_layers_leaves_modifiers_that_wait_and_keys_that_are_down(fingers) -> None:
    turns = {"X": LatchLayer("x"), "S": OnceModifiers(LEFT_SHIFT), "Off": UnlatchLayers()}
    type_ = fingers(turns, layers={"x": {"J": Press(ONE)}})
    type_("+X", 10, "-X", 10)
    assert type_("+J", 10) == [down(ONE)]
    assert type_("+Off", 10, "-Off", 10, "-J", 20) == [UP]
    type_("+S", 10, "-S", 20, "+Off", 10, "-Off", 10)
    assert type_("+J", 10)[0] == down(J, modifiers=LEFT_SHIFT)
