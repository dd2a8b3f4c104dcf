"""What leaves while a press is undecided, and what its past makes of a press."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.behaviour import Machine
from matrixgen.model import (
    Action,
    HoldLayer,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Press,
    TapHold,
)
from tests.firmware.pads import LEFT_CTRL, LEFT_SHIFT, timed_pad
from tests.firmware.scripts import CTRL_ON_A, ONE, TWO, UP, A, B, J, K, down, only_types

VOLUME_UP = Media(0x0C, 0xE9)
LEFT, HOME = 0x50, 0x4A
SHIFTED = down(modifiers=LEFT_SHIFT)


# --- what leaves before an undecided press ---


@pytest.mark.parametrize("decided_by", ["time", "press", "release"])
def test_a_letter_that_was_down_before_leaves_at_once(fingers, decided_by) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL), decided_by=decided_by)})
    type_("+J", 150)
    assert type_("+A", 20, "-J", 6) == []
    assert type_(1) == [UP]
    assert type_(100) == []
    assert type_(100) == [down(modifiers=LEFT_CTRL)]


def test_so_does_a_media_key_and_a_tap_that_types(fingers) -> None:
    tapped = TapHold(Press(B), HoldLayer("f"), roll_ms=0)
    type_ = fingers({**CTRL_ON_A, "V": VOLUME_UP, "B": tapped}, layers={"f": {}})
    type_("+B", 20, "-B", 20, "+B", 150)
    assert type_("+V", 150, "+A", 20, "-B", 7) == [UP]
    assert type_.media == [b"\x01\x01"]
    type_("-V", 7)
    assert type_.media[1:] == [b"\x01\x00"]


@pytest.mark.parametrize(
    "other", [Press(0, LEFT_SHIFT), Press(ONE, LEFT_SHIFT), OnceModifiers(LEFT_SHIFT)]
)
def test_a_modifier_waits_since_its_end_would_change_what_the_press_means(fingers, other) -> None:
    type_ = fingers({**CTRL_ON_A, "S": other})
    before = type_("+S", 150)[-1]
    assert type_("+A", 20, "-S", 20) == []
    usages = [A, *other.sends] if isinstance(other, Press) else [A]
    assert type_("-A", 7)[0] == down(*usages, modifiers=LEFT_SHIFT)
    assert before[0] == LEFT_SHIFT


def test_a_layer_waits_too(fingers) -> None:
    type_ = fingers({**CTRL_ON_A, "F": HoldLayer("f")}, layers={"f": {"K": Press(TWO)}})
    type_("+F", 20)
    assert type_("+A", 20, "+K", 10, "-F", 30, "-A", 20) == [down(A), down(A, TWO), down(TWO)]


def test_what_went_down_after_the_press_waits(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(A), Press(0, LEFT_CTRL), decided_by="time")})
    type_("+J", 150)
    assert type_("+A", 20, "-J", 20, "+J", 20, "-J", 20) == [UP]
    assert type_("-A", 20) == [down(A), down(A, J), down(A), UP]


def test_a_letter_that_used_a_once_key_takes_its_modifiers_along(fingers) -> None:
    type_ = fingers({**CTRL_ON_A, "S": OnceModifiers(LEFT_SHIFT)})
    type_("+S", 20, "-S", 20, "+J", 150)
    assert type_("+A", 20, "-J", 20) == [UP]
    assert type_("-A", 20) == [down(A), UP]


def test_a_letter_let_go_in_time_is_not_repeated_by_the_host(fingers) -> None:
    """However slow the host is: the release is told before the press, decided or not."""
    type_ = fingers(CTRL_ON_A)
    type_("+J", 150)
    type_.pair.close("K", True)
    type_.pair.step()  # its report stays with the host
    type_.pair.advance(150)
    for key, closed, pause in (("A", True, 20), ("J", False, 40), ("A", False, 300)):
        type_.pair.close(key, closed)
        type_.pair.step()
        type_.pair.advance(pause)
        type_.pair.step()
    assert type_(10) == [down(J, K), down(K), down(K, A), down(K)]


# --- which past makes a tap of a press ---


def test_a_hold_that_types_is_no_tap_afterwards(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(LEFT), Press(HOME))})
    for _ in range(3):
        assert type_("+A", 300, "-A", 30) == [down(HOME), UP]


def test_nor_is_a_plain_key_that_the_switch_sent_on_another_layer(fingers) -> None:
    base: dict[str, Action] = {"A": TapHold(Press(LEFT), Press(HOME)), "F": LatchLayer("f")}
    type_ = fingers(base, layers={"f": {"A": Press(LEFT)}})
    assert type_("+F", 20, "-F", 20, "+A", 20, "-A", 20, "+F", 20, "-F", 20) == [down(LEFT), UP]
    assert type_("+A", 300, "-A", 20) == [down(HOME), UP]


def test_nor_the_tap_of_another_phrase(fingers) -> None:
    base: dict[str, Action] = {"A": TapHold(Press(LEFT), Press(HOME)), "F": LatchLayer("f")}
    type_ = fingers(base, layers={"f": {"A": TapHold(Press(LEFT), Press(TWO))}})
    type_("+F", 20, "-F", 20, "+A", 20, "-A", 20, "+F", 20, "-F", 20)
    assert type_("+A", 300, "-A", 20) == [down(HOME), UP]


def test_the_time_after_a_tap_counts_from_when_it_was_let_go(fingers) -> None:
    type_ = fingers(CTRL_ON_A)
    type_("+A", 190, "-A", 199)
    assert type_("+A", 1) == [down(A)]
    type_("-A", 200)
    assert type_("+A", 1) == []


def test_a_modifier_a_layer_or_nothing_between_leaves_a_tap_the_last_that_typed(fingers) -> None:
    base: dict[str, Action] = {"S": Press(0, LEFT_SHIFT), "F": HoldLayer("f"), "N": Nothing()}
    type_ = fingers({**CTRL_ON_A, **base}, layers={"f": {}})
    type_("+A", 50, "-A", 20, "+N", 10, "-N", 10, "+F", 10, "-F", 10, "+S", 20)
    assert type_("+A", 1) == [down(A, modifiers=LEFT_SHIFT)]


@pytest.mark.parametrize("other", [Press(0, LEFT_SHIFT), HoldLayer("f"), Nothing()])
def test_only_a_key_that_types_begins_a_roll(fingers, other) -> None:
    type_ = fingers({**CTRL_ON_A, "O": other}, layers={"f": {}})
    type_("+O", 20)
    assert type_("+A", 100) == []


def test_a_media_key_begins_a_roll(fingers) -> None:
    type_ = fingers({**CTRL_ON_A, "V": VOLUME_UP})
    type_("+V", 20)
    assert type_("+A", 1) == [down(A)]


def test_its_own_press_begins_no_roll(fingers) -> None:
    type_ = fingers({"A": TapHold(Press(LEFT), Press(HOME), after_ms=50, roll_ms=500)})
    for _ in range(3):
        assert type_("+A", 100, "-A", 30) == [down(HOME), UP]


# --- what uses up a `once`, and what locks it ---


def test_modifiers_layers_and_nothing_do_not_use_it_up(fingers) -> None:
    base: dict[str, Action] = {
        "S": OnceModifiers(LEFT_SHIFT),
        "C": Press(0, LEFT_CTRL),
        "N": Nothing(),
        "F": HoldLayer("f"),
    }
    type_ = fingers(base, layers={"f": {"J": Press(ONE)}})
    type_("+S", 10, "-S", 10, "+N", 10, "-N", 10, "+F", 10, "+C", 10)
    assert type_("+J", 10)[0] == down(ONE, modifiers=LEFT_CTRL | LEFT_SHIFT)


def test_another_once_key_between_locks_nothing(fingers) -> None:
    type_ = fingers({"S": OnceModifiers(LEFT_SHIFT), "C": OnceModifiers(LEFT_CTRL)})
    type_("+S", 10, "-S", 10, "+C", 10, "-C", 10, "+S", 10, "-S", 10)
    assert type_("+J", 10, "-J", 10)[0] == down(J, modifiers=LEFT_CTRL | LEFT_SHIFT)
    assert type_("+J", 10, "-J", 10) == [down(J), UP]


def test_the_layer_key_that_it_is_reached_by_comes_not_between(fingers) -> None:
    base: dict[str, Action] = {"F": HoldLayer("f"), "S": Nothing()}
    type_ = fingers(base, layers={"f": {"S": OnceModifiers(LEFT_SHIFT)}})
    for _ in range(2):
        type_("+F", 10, "+S", 10, "-S", 10, "-F", 10)
    for _ in range(2):
        assert type_("+J", 10, "-J", 10)[0] == down(J, modifiers=LEFT_SHIFT)


def test_a_once_layer_ends_when_the_key_that_it_waited_for_goes_down(fingers) -> None:
    type_ = fingers({"S": OnceLayer("f")}, layers={"f": {"J": Press(ONE), "K": Press(TWO)}})
    type_("+S", 10, "-S", 10)
    assert type_("+J", 10, "+K", 10, "-J", 10, "-K", 10) == [down(ONE), down(ONE, K), down(K), UP]


def test_what_waits_for_a_key_ends_together(fingers) -> None:
    """Ctrl is not lost from Ctrl+Shift+J because it was pressed first."""
    base: dict[str, Action] = {"S": OnceModifiers(LEFT_SHIFT), "C": OnceModifiers(LEFT_CTRL)}
    type_ = fingers(base, once_ms=500)
    type_("+C", 10, "-C", 400, "+S", 300)  # none ends while one is held
    assert type_("-S", 490) == []
    assert type_("+J", 10, "-J", 10)[0] == down(J, modifiers=LEFT_CTRL | LEFT_SHIFT)
    type_("+C", 10, "-C", 400, "+S", 10, "-S", 7)
    assert type_(490) == []
    assert type_(10) == [UP]


# --- for any fingers ---


@pytest.mark.few(4)
@pytest.mark.parametrize("seed", range(8))
def test_no_letter_stays_down_for_longer_than_the_debounce_time(seed: int) -> None:
    """Unless modifiers came with it, a host is told of its release within 7 ms and its turn."""
    machine, chance = Machine(timed_pad()), Random(seed)
    open_since: dict[str, int] = {}
    late: list[int] = []
    for _ in range(400):
        down_now = sorted(machine.closed)
        lets_go = down_now and chance.random() < 0.25 + 0.12 * len(down_now)
        key = chance.choice(down_now if lets_go else machine.scanned)
        machine.closed ^= {key}
        if lets_go and key in machine.held and only_types(machine.held[key]):
            open_since[key] = machine.now_ms
        for _ in range(chance.choice((8, 20, 60, 120, 220))):
            for _ in range(4):
                machine.step()
                if (machine.take(), machine.take_media()) == (None, None):
                    break  # the next scan at the same moment tells nothing either
            for gone in [key for key in open_since if key not in machine.held]:
                late.append(machine.now_ms - open_since.pop(gone))
            machine.now_ms += 1
    assert len(late) > 30
    assert max(late) <= 7
