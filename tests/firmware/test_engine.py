"""What the engine promises, each thing by itself: debouncing, layers, both reports, the loop."""

from __future__ import annotations

import pytest

from tests.firmware.host_build import HostKeyboard
from tests.firmware.pads import (
    LEFT_CTRL,
    LEFT_SHIFT,
    loader_pad,
    small_pad,
    square_board,
    timed_pad,
)
from tests.reports import any_number

DEBOUNCE_MS = 5


@pytest.fixture
def timed(started):
    return started(timed_pad)


@pytest.fixture
def loader(started):
    return started(loader_pad)


@pytest.fixture
def pad(started):
    return started(small_pad)


@pytest.fixture
def board(started):
    return started(square_board)


def press(keys: HostKeyboard, *names: str) -> list[bytes | None]:
    """Close the keys one after the other; what the host gets."""
    reports = []
    for name in names:
        keys.close(name, True)
        keys.step()
        reports.append(keys.take())
    return reports


def release(keys: HostKeyboard, *names: str) -> list[bytes | None]:
    reports = []
    for name in names:
        keys.close(name, False)
        keys.step()
        keys.advance(DEBOUNCE_MS + 1)
        keys.step()
        reports.append(keys.take())
    return reports


# --- debouncing ---


def test_a_press_is_reported_by_the_scan_that_sees_it(pad) -> None:
    assert press(pad, "A") == [any_number(0, 0x04)]


def test_a_release_counts_once_the_key_was_open_for_longer_than_the_debounce_time(pad) -> None:
    press(pad, "A")
    pad.close("A", False)
    pad.step()
    pad.advance(DEBOUNCE_MS)
    pad.step()
    assert pad.take() is None
    pad.advance(1)
    pad.step()
    assert pad.take() == any_number(0)


def test_one_closed_reading_starts_the_release_anew(pad) -> None:
    press(pad, "A")
    for closed in (False, True, False):
        pad.close("A", closed)
        pad.step()
        pad.advance(DEBOUNCE_MS - 1)
    pad.step()
    assert pad.take() is None
    pad.advance(2)
    pad.step()
    assert pad.take() == any_number(0)


def test_the_clock_may_wrap_between_opening_and_release(pad) -> None:
    pad.advance(0xFFFD)
    press(pad, "A")
    assert release(pad, "A") == [any_number(0)]


def test_a_short_at_an_empty_crossing_types_nothing(pad) -> None:
    assert (3, 0) not in pad.crossings.values()
    pad.c.host_close(3, 0, True)
    assert not pad.step()
    assert pad.take() is None
    assert press(pad, "G", "A") == [None, any_number(0, 0x04)]


# --- actions and layers ---


def test_each_change_has_a_report_of_its_own_in_scan_order(pad) -> None:
    for name in ("A", "B", "Shift"):
        pad.close(name, True)
    reports = []
    for _ in range(4):
        pad.step()
        reports.append(pad.take())
    assert reports == [
        any_number(0, 0x04),
        any_number(0, 0x04, 0x05),
        any_number(LEFT_SHIFT, 0x04, 0x05),
        None,
    ]


def test_two_keys_of_one_usage_hold_it_until_both_are_up(pad) -> None:
    assert press(pad, "A", "D") == [any_number(0, 0x04), None]
    assert release(pad, "A", "D") == [None, any_number(0)]


def test_a_modified_usage_leaves_the_modifier_that_another_key_holds(pad) -> None:
    assert press(pad, "C", "E") == [any_number(LEFT_CTRL, 0x06), None]
    assert release(pad, "C") == [any_number(0, 0x06)]


def test_a_release_undoes_its_press_although_the_layer_has_gone(pad) -> None:
    assert press(pad, "Sym", "A") == [None, any_number(LEFT_SHIFT, 0x1E)]
    assert release(pad, "Sym", "A") == [None, any_number(0)]
    assert press(pad, "A") == [any_number(0, 0x04)]


def test_a_layer_is_on_until_the_last_of_its_keys_is_up(pad) -> None:
    press(pad, "Num", "Both", "Sym")
    release(pad, "Both")
    assert press(pad, "B") == [None]
    release(pad, "Sym", "B")
    release(pad, "Num")
    assert press(pad, "B") == [any_number(0, 0x05)]


def test_a_latched_layer_lies_on_top_of_a_held_one_and_goes_with_the_second_press(pad) -> None:
    press(pad, "Num")
    release(pad, "Num")
    assert press(pad, "Sym", "A") == [None, any_number(0, 0x59)]
    release(pad, "A", "Sym")
    press(pad, "Num")
    release(pad, "Num")
    assert press(pad, "A") == [any_number(0, 0x04)]


# --- what is for the next key only ---


def test_modifiers_that_a_key_used_before_a_start_are_not_down_after_it(timed) -> None:
    for name, down in (("OnceShift", True), ("OnceShift", False), ("J", True)):
        timed.close(name, down)
        for _ in range(8):
            timed.step()
            timed.advance(2)
        report = timed.take()
    assert report == any_number(LEFT_SHIFT, 0x0D)
    timed.restart()
    timed.close("OnceNum", True)
    for _ in range(8):
        timed.step()
        timed.advance(2)
    assert timed.current(boot=False) == any_number(0)


# --- what typed last ---


def pass_time(keys: HostKeyboard, milliseconds: int, step_ms: int = 2) -> list[bytes]:
    """Let time pass in steps; what the host gets meanwhile."""
    reports = []
    for _ in range(0, milliseconds, step_ms):
        keys.step()
        report = keys.take()
        reports += [] if report is None else [report]
        keys.advance(step_ms)
    return reports


def test_a_tap_is_repeated_though_its_press_was_long_before_its_release(timed) -> None:
    """The roll makes it a tap at once, and it is held for longer than the press is remembered."""
    timed.close("J", True)
    pass_time(timed, 30)
    timed.close("D", True)
    assert pass_time(timed, 30) == [any_number(0, 0x07, 0x0D)]
    timed.close("J", False)
    assert pass_time(timed, 30) == [any_number(0, 0x07)]
    assert pass_time(timed, 25_000, step_ms=50) == []
    timed.close("D", False)
    assert pass_time(timed, 60) == [any_number(0)]
    timed.close("D", True)
    assert pass_time(timed, 60) == [any_number(0, 0x07)]


def test_a_key_that_follows_fast_is_part_of_a_roll_also_after_a_pause(timed) -> None:
    """What counts is when the key before it was pressed, not when that was let go last."""
    for pause_ms in (30, 20_000, 30):
        timed.close("J", True)
        pass_time(timed, 20)
        timed.close("J", False)
        pass_time(timed, pause_ms, step_ms=10)
    timed.close("D", True)
    assert pass_time(timed, 20) == [any_number(0, 0x07)]


# --- the boot loader ---


def test_keys_held_together_start_the_boot_loader_after_one_second(loader) -> None:
    press(loader, "A", "Z")
    loader.advance(700)
    loader.step()
    press(loader, "B")
    loader.advance(999)
    loader.step()
    assert loader.boot_loads() == 0
    loader.advance(1)
    loader.step()
    assert loader.boot_loads() == 1


def test_other_keys_make_no_difference_and_a_missing_one_does(loader) -> None:
    press(loader, "A", "B", "F1", "F2")
    loader.advance(5000)
    loader.step()
    assert loader.boot_loads() == 0
    press(loader, "Z")
    loader.advance(1000)
    loader.step()
    assert loader.boot_loads() == 1


def test_a_release_starts_the_second_anew(loader) -> None:
    press(loader, "A", "B", "Z")
    loader.advance(990)
    release(loader, "B")
    press(loader, "B")
    loader.advance(999)
    loader.step()
    assert loader.boot_loads() == 0


@pytest.mark.parametrize("open_ms, loads", [(DEBOUNCE_MS, 1), (DEBOUNCE_MS + 1, 0)])
def test_what_is_open_for_no_longer_than_the_debounce_time_has_only_chattered(
    loader, open_ms, loads
) -> None:
    press(loader, "A", "B", "Z")
    for closed, passed in ((True, 600), (False, open_ms), (True, 395)):
        loader.close("B", closed)
        loader.step()
        loader.advance(passed)
        loader.step()
    assert loader.boot_loads() == loads


def test_a_second_that_began_before_a_start_does_not_count(loader) -> None:
    press(loader, "A", "B", "Z")
    loader.advance(990)
    loader.step()
    loader.restart()
    loader.advance(990)
    press(loader, "A", "B", "Z")
    loader.advance(20)
    loader.step()
    assert loader.boot_loads() == 0


def test_the_keys_work_while_no_host_takes_reports_and_type_as_ever(loader) -> None:
    assert press(loader, "A") == [any_number(0, 0x04)]
    loader.close("B", True)
    loader.step()  # given, and never taken
    loader.close("Z", True)
    loader.step()
    loader.advance(1000)
    loader.step()
    assert loader.boot_loads() == 1


def test_the_clock_may_wrap_while_the_keys_are_held(loader) -> None:
    loader.advance(0xFE00)
    loader.step()
    press(loader, "A", "B", "Z")
    loader.advance(999)
    loader.step()
    assert loader.boot_loads() == 0
    loader.advance(1)
    loader.step()
    assert loader.boot_loads() == 1


def test_an_action_starts_the_boot_loader_at_its_press_and_only_on_its_layer(loader) -> None:
    press(loader, "F3")
    release(loader, "F3")
    assert loader.boot_loads() == 0
    assert press(loader, "More", "F3") == [None, None]
    assert loader.boot_loads() == 1
    assert release(loader, "F3", "More") == [None, None]
    assert loader.boot_loads() == 1


# --- the boot report, HID 1.11 appendices B.1 and C ---


def test_the_boot_report_has_modifiers_a_zero_and_up_to_six_usages(board) -> None:
    board.transport(open=True, boot=True)
    reports = press(board, "K05", *(f"K1{place}" for place in range(6)))
    assert reports[0] == bytes([LEFT_SHIFT, 0, 0, 0, 0, 0, 0, 0])
    assert reports[-1] == bytes([LEFT_SHIFT, 0, 0x0C, 0x0D, 0x0E, 0x0F, 0x10, 0x11])


def test_seven_keys_are_error_roll_over_and_modifiers_are_still_reported(board) -> None:
    board.transport(open=True, boot=True)
    press(board, *(f"K1{place}" for place in range(6)))
    assert press(board, "K16") == [bytes([0, 0, 1, 1, 1, 1, 1, 1])]
    assert press(board, "K17") == [None]
    assert press(board, "K05") == [bytes([LEFT_SHIFT, 0, 1, 1, 1, 1, 1, 1])]
    assert release(board, "K17", "K16") == [
        None,
        bytes([LEFT_SHIFT, 0, 0x0C, 0x0D, 0x0E, 0x0F, 0x10, 0x11]),
    ]


def test_the_host_that_changes_the_protocol_hears_of_what_is_down_in_its_new_form(board) -> None:
    press(board, "K05")
    board.transport(open=True, boot=True)
    board.step()
    assert board.take() == bytes([LEFT_SHIFT, 0, 0, 0, 0, 0, 0, 0])


def test_the_host_that_changes_the_protocol_hears_nothing_while_all_is_up(board) -> None:
    board.transport(open=True, boot=True)
    board.step()
    assert board.take() is None


def test_a_change_of_protocol_after_a_sleep_is_no_news_while_all_is_up(board) -> None:
    press(board, "K05")
    board.transport(open=False, boot=False)
    board.step()
    board.transport(open=True, boot=False)
    board.step()
    assert board.take() == any_number(LEFT_SHIFT)
    assert release(board, "K05") == [any_number(0)]
    board.transport(open=True, boot=True)
    board.step()
    assert board.take() is None


# --- a host that does not listen ---


def test_a_key_held_since_before_the_host_listened_is_reported_when_it_does(pad) -> None:
    pad.transport(open=False, boot=False)
    assert press(pad, "A", "B") == [None, None]
    pad.transport(open=True, boot=False)
    pad.step()
    assert pad.take() == any_number(0, 0x04, 0x05)


def test_a_key_let_go_while_the_host_slept_does_not_stick(pad) -> None:
    press(pad, "A")
    pad.transport(open=False, boot=False)
    release(pad, "A")
    pad.transport(open=True, boot=False)
    pad.step()
    assert pad.take() == any_number(0)


def test_a_slow_host_gets_every_change_in_order_when_it_comes_back(pad) -> None:
    press(pad, "A")  # taken
    pad.close("B", True)
    pad.step()  # given, and left in the transport
    expected = [any_number(0, 0x04, 0x05)]
    for _ in range(4):
        for closed, usages in ((False, (0x04,)), (True, (0x04, 0x05))):
            pad.close("B", closed)
            pad.step()
            pad.advance(DEBOUNCE_MS + 1)
            pad.step()
            expected.append(any_number(0, *usages))
    got = []
    for _ in expected:
        got.append(pad.take())
        pad.step()
    assert got == expected
    assert pad.take() is None


# --- the loop ---


def test_the_loop_s_start_starts_the_chip_the_watchdog_and_usb(pad) -> None:
    assert pad.c.host_started() and pad.c.host_watched() and pad.c.host_attached()


def test_the_loop_feeds_the_watchdog_at_every_turn(pad) -> None:
    for _ in range(3):
        pad.c.loop_step()
    assert pad.c.host_feeds() == 3


def test_the_loop_naps_while_the_bus_sleeps_and_wakes_the_host_at_a_press_only(pad) -> None:
    pad.transport(open=False, boot=False)
    pad.c.host_suspend(True)
    pad.c.loop_step()
    assert (pad.c.host_naps(), pad.c.host_wakes()) == (1, 0)
    pad.close("A", True)
    pad.c.loop_step()
    pad.c.loop_step()
    assert (pad.c.host_naps(), pad.c.host_wakes()) == (2, 1)


def test_the_loop_does_not_nap_while_the_bus_is_awake(pad) -> None:
    for _ in range(3):
        pad.c.loop_step()
    assert pad.c.host_naps() == 0


def test_a_key_that_is_down_since_before_a_sleep_does_not_end_it(pad) -> None:
    pad.c.host_suspend(True)
    pad.close("A", True)
    pad.c.loop_step()
    for suspended in (False, True, True):
        pad.c.host_suspend(suspended)
        pad.c.loop_step()
    assert (pad.c.host_naps(), pad.c.host_wakes()) == (3, 0)
