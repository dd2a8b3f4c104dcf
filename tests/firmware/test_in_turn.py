"""What keys that type in turn promise, each thing by itself, in milliseconds."""

from __future__ import annotations

import pytest

from tests.firmware.host_build import HostKeyboard
from tests.firmware.pads import LEFT_CTRL, LEFT_SHIFT, turn_pad, typist_pad
from tests.reports import any_number

A, B, CAPS_LOCK, CAPS_ON = 0x04, 0x05, 0x39, 0x02
PACE_MS = 4
UP = any_number(0)
TEXT = [any_number(0, A), UP, any_number(LEFT_SHIFT, A), UP, any_number(0, B), UP]
FIRST, SECOND = any_number(LEFT_CTRL, 0x0E), any_number(LEFT_CTRL, 0x06)
CAPS = [any_number(0, CAPS_LOCK), UP]

Told = list[tuple[int, bytes]]


@pytest.fixture
def turns(started):
    keyboard = started(turn_pad)
    yield keyboard
    assert keyboard.faults() == 0


@pytest.fixture
def typist(started):
    keyboard = started(typist_pad)
    yield keyboard
    assert keyboard.faults() == 0


def timed(keyboard: HostKeyboard, *steps: str | int) -> Told:
    """Do `+KEY`, `-KEY` and milliseconds; return the reports with the millisecond of each."""
    told, now_ms = [], 0
    for step in steps:
        if isinstance(step, str):
            keyboard.close(step[1:], step[0] == "+")
            continue
        for _ in range(step):
            for _ in range(3):
                keyboard.step()
                if report := keyboard.take():
                    told.append((now_ms, report))
            keyboard.advance(1)
            now_ms += 1
    return told


def told(keyboard: HostKeyboard, *steps: str | int) -> list[bytes]:
    return [report for _, report in timed(keyboard, *steps)]


def paced(reports: list[bytes], begin_ms: int = 0) -> Told:
    return [(begin_ms + PACE_MS * place, report) for place, report in enumerate(reports)]


def test_each_stroke_goes_down_and_up_at_its_pace(turns) -> None:
    assert timed(turns, "+Text", 60) == paced(TEXT)
    assert timed(turns, "-Text", 10, "+Text", 60) == paced(TEXT, 10)


def test_without_any_time_in_the_keyboard_too(typist) -> None:
    expected = [(15 * place, one) for place, one in enumerate([FIRST, UP, SECOND, UP, *TEXT])]
    assert timed(typist, "+Two", 180) == expected
    assert told(typist, "-Two", 10, "+A", 2, "-A", 10) == [any_number(0, A), UP]


def test_a_wait_counts_from_when_it_begins(turns) -> None:
    wait_ms = 4 * PACE_MS
    expected = paced([FIRST, UP, SECOND, UP]) + paced(TEXT, wait_ms + 50)
    assert timed(turns, "+Slow", 110) == expected


def test_a_long_wait_and_modifiers_alone(turns) -> None:
    assert timed(turns, "+Long", 700) == [*paced([FIRST, UP]), *paced([SECOND, UP], 638)]
    lone = paced([any_number(LEFT_SHIFT), UP, any_number(0, 0x28), UP])
    assert timed(turns, "-Long", 10, "+Lone", 40) == [(at + 10, one) for at, one in lone]


def test_caps_lock_is_set_aside_for_a_text_alone(turns) -> None:
    turns.leds(0xFF & ~CAPS_ON)
    assert told(turns, "+Text", 60, "-Text", 10) == TEXT
    turns.leds(CAPS_ON)
    assert timed(turns, "+Text", 90) == paced([*CAPS, *TEXT, *CAPS])
    assert told(turns, "-Text", 10, "+Two", 60) == [FIRST, UP, SECOND, UP]


def test_a_slow_host_loses_nothing(turns) -> None:
    seen = []
    turns.close("Text", True)
    for _ in range(12):
        for _ in range(37):
            turns.step()
            turns.advance(1)
        seen.append(turns.take())
    assert [one for one in seen if one] == TEXT


def test_pressed_again_it_stops_after_the_stroke(turns) -> None:
    turns.leds(CAPS_ON)
    script = ("+Text", 7, "-Text", 6, "+Text", 40)
    assert timed(turns, *script) == paced([*CAPS, *TEXT[:2], *CAPS])
    assert told(turns, "-Text", 10, "+A", 3) == [any_number(0, A)]


def test_stopped_before_caps_lock_was_pressed_it_presses_none(typist) -> None:
    """The host has not heard yet that another key is up, so that the first stroke is to come."""
    typist.leds(CAPS_ON)
    typist.close("A", True)
    typist.step()
    typist.close("Text", True)
    for _ in range(10):
        typist.step()
        typist.advance(1)
    typist.close("Text", False)
    for _ in range(10):
        typist.step()
        typist.advance(1)
    assert typist.take() == any_number(0, A)
    typist.step()
    typist.close("Text", True)
    typist.step()
    assert told(typist, 60) == [UP]


def test_a_wait_may_be_shorter_than_a_report_lasts(typist) -> None:
    expected = [(0, FIRST), (15, UP), (40, SECOND), (55, UP)]
    assert timed(typist, "+Short", 90) == expected


def test_pressed_again_it_stops_a_wait(turns) -> None:
    script = ("+Long", 20, "-Long", 10, "+Long", 1, "+A", 9)
    assert timed(turns, *script) == [*paced([FIRST, UP]), (31, any_number(0, A))]


def test_a_wait_is_stopped_no_sooner_than_its_report_has_lasted(turns) -> None:
    """The key is pressed again in the millisecond after the one in which the wait begins."""
    script = ("+Long", 1, "-Long", 8, "+Long", 1, "+A", 9)
    assert timed(turns, *script) == [*paced([FIRST, UP]), (3 * PACE_MS, any_number(0, A))]


def test_other_keys_are_up_and_stay_up_and_modifiers_come_back(turns) -> None:
    assert told(turns, "+A", 2, "+Shift", 2, "+CtrlA", 2)[-1] == any_number(
        LEFT_SHIFT | LEFT_CTRL, A
    )
    assert told(turns, "+Text", 60) == [UP, *TEXT, any_number(LEFT_SHIFT)]
    assert told(turns, "-A", "-CtrlA", 10) == []
    assert told(turns, "-Shift", 10) == [UP]
    assert told(turns, "+A", 3) == [any_number(0, A)]


def test_a_modifier_let_go_meanwhile_is_up_afterwards(turns) -> None:
    assert told(turns, "+Shift", 2) == [any_number(LEFT_SHIFT)]
    assert told(turns, "+Text", 3, "-Shift", 60) == [UP, *TEXT, any_number(LEFT_SHIFT), UP]


def test_a_modifier_for_the_next_key_is_used_up_and_colours_nothing(turns) -> None:
    once = any_number(LEFT_SHIFT)
    assert told(turns, "+OnceShift", 3, "-OnceShift", 10, "+Text", 60) == [once, UP, *TEXT]
    assert told(turns, "-Text", 10, "+A", 3) == [any_number(0, A)]


def test_what_is_typed_meanwhile_comes_afterwards(turns) -> None:
    script = ("+Text", 3, "+B", 6, "-B", 6, "+A", 60)
    assert told(turns, *script) == [*TEXT, any_number(0, B), UP, any_number(0, A)]


def test_the_key_s_own_release_waits_for_nobody(turns) -> None:
    """Pressed and released behind another key, it is the second press of the key that stops it."""
    script = ("+Slow", 3, "+B", 6, "-Slow", 10, "+Slow", 10)
    assert told(turns, *script) == [FIRST, UP, SECOND, UP, any_number(0, B)]


@pytest.mark.parametrize(("keys", "stops"), [(6, False), (7, True)])
def test_a_seventh_key_stops_it(turns, keys, stops) -> None:
    told(turns, "+Long", 20)
    taps = [step for _ in range(keys) for step in ("+A", 6, "-A", 8)]
    reports = told(turns, *taps[: -2 if stops else None])
    assert (len(reports) > 0) == stops
    if stops:
        assert told(turns, "-A", 20)[-1] == UP and not any(one == SECOND for one in reports)


def test_a_host_that_does_not_listen_ends_it(turns) -> None:
    assert told(turns, "+Text", 9) == TEXT[:3]
    turns.transport(open=False, boot=False)
    assert told(turns, 5) == []
    turns.transport(open=True, boot=False)
    assert told(turns, 60) == [UP]
    turns.transport(open=False, boot=False)
    assert told(turns, "-Text", 10, "+Text", 5) == []
    turns.transport(open=True, boot=False)
    assert told(turns, 60, "-Text", 10, "+A", 3) == [any_number(0, A)]


def test_a_tap_types_and_tapped_again_it_types_again(turns) -> None:
    """A key that was tapped just now and is held is tapped for longer."""
    assert told(turns, "+TapText", 20, "-TapText", 50) == TEXT
    assert told(turns, "+TapText", 50) == TEXT


def test_what_stopped_a_text_was_no_tap(turns) -> None:
    assert told(turns, "+TapText", 20, "-TapText", 8) == TEXT[:1]
    stopped = told(turns, "+TapText", 6, "-TapText", 20)
    assert stopped == [UP]
    assert told(turns, "+TapText", 100) == []
    assert told(turns, 60, "+A", 30) == [FIRST, UP, SECOND, UP]


def test_media_keys_stay_as_they_are(turns) -> None:
    turns.close("M", True)
    turns.step()
    assert turns.take_media() == b"\1\1"
    assert told(turns, "+Text", 60) == TEXT
    assert turns.take_media() is None
    turns.close("M", False)
    told(turns, 10)
    assert turns.take_media() == b"\1\0"
