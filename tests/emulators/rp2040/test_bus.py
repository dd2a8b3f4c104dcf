"""The RP2040's bus asleep and awake, and its watchdog, as far as the emulator has them.

rp2040py has no suspend, resume or remote wake-up; the harness sets the flags that the datasheet
says the controller sets. So these tests show that the firmware follows the datasheet, not that
silicon does.
"""

from __future__ import annotations

import functools

import pytest
from rp2040py.peripherals import timer

from tests.emulators.avr.conftest import Desk
from tests.emulators.avr.test_bus import (  # noqa: F401
    allow_wake_up,
    test_a_bus_reset_wakes_a_suspended_keyboard,
    test_a_key_does_not_wake_a_host_that_has_not_allowed_it,
    test_a_program_that_hangs_is_restarted_by_the_watchdog,
    test_keys_pressed_and_released_asleep_are_not_stuck_afterwards,
    test_the_watchdog_is_fed_awake_and_asleep,
)
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.rp2040.clocks import (
    SLEEP_EN0,
    SLEEP_EN1,
    TIMER_GATE,
    USB_GATES,
    WATCHDOG_GATE,
)
from tests.emulators.rp2040.test_boot import PLL_SYS, PLL_USB
from tests.emulators.rp2040.test_usb import desk  # noqa: F401

PLL_OFF = 1 << 0 | 1 << 3 | 1 << 5
"""PWR's bits for PLL, dividers and oscillator (datasheet section 2.18.4)."""


@pytest.mark.parametrize("is_level", [False, True])
def test_a_suspended_keyboard_sleeps(desk: Desk, is_level: bool) -> None:  # noqa: F811
    """Whether SUSPENDED is a level or is cleared by writing 1: the firmware takes either."""
    desk.chip.cable.suspended_is_a_level = is_level
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(20)
    before, slept = desk.chip.cycles, desk.chip.slept
    desk.chip.wait(500)
    share = (desk.chip.slept - slept) / (desk.chip.cycles - before)
    assert share > 0.98
    core = desk.chip.rp2040.core
    assert core.waits > 40 and core.waits_in_vain < 3


@pytest.mark.parametrize("is_level", [False, True])
def test_a_resumed_keyboard_still_has_its_address_and_types(
    desk: Desk,  # noqa: F811
    is_level: bool,
) -> None:
    desk.chip.cable.suspended_is_a_level = is_level
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.resume()
    desk.chip.wait(2)
    assert desk.chip.address == 5
    assert desk.host.read(0x80, 8, 0, 0, 1) == b"\1"
    desk.chip.close_key("K00")
    assert desk.host.poll(3) == [any_number_report(0x04)]


def test_a_nap_runs_from_the_pll_of_usb_and_stops_that_of_the_core(desk: Desk) -> None:  # noqa: F811
    """Datasheet section 2.11: what still has a clock decides what sleep costs.

    The harness complains on its own of a core that is slower than the controller.
    """
    chip = desk.chip
    chip.share = 1
    chip.suspend()
    chip.wait(20)
    napping = 0
    for _ in range(100):
        chip.wait(0.37)
        clocks = chip.rp2040.clocks
        pll_is_off = chip.rp2040.peripherals[PLL_SYS].block.words[0x4] & PLL_OFF == PLL_OFF
        napping += clocks.core_hz == 48e6 and pll_is_off
        assert chip.pll_hertz(PLL_USB) == 48e6
        assert clocks.usb_ctrl == 1 << 11
        assert clocks.ref_ctrl == 2
    assert napping > 90
    chip.resume()
    chip.wait(1)
    assert (chip.rp2040.clocks.core_hz, chip.pll_hertz(PLL_SYS)) == (125e6, 125e6)
    chip.share = 0.15
    chip.close_key("K00")
    assert desk.host.poll(3) == [any_number_report(0x04)]


def test_asleep_only_timer_watchdog_and_usb_have_a_clock(desk: Desk) -> None:  # noqa: F811
    """Datasheet section 2.11.3; that the keyboard works so, the tests around this one show."""
    sleep_en = desk.chip.rp2040.clocks.sleep_en
    assert sleep_en == {SLEEP_EN0: 0, SLEEP_EN1: TIMER_GATE | WATCHDOG_GATE | USB_GATES}


def shut_asleep(desk: Desk, gates: int) -> None:  # noqa: F811
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(20)
    desk.chip.rp2040.clocks.sleep_en[SLEEP_EN1] &= ~gates


def test_without_the_timers_clock_the_harness_lets_it_sleep_until_the_watchdog_bites(
    desk: Desk,  # noqa: F811
) -> None:
    shut_asleep(desk, TIMER_GATE)
    desk.chip.wait(400)
    assert desk.chip.resets == 1


def test_without_the_watchdogs_clock_too_the_harness_lets_it_sleep_for_ever(
    desk: Desk,  # noqa: F811
) -> None:
    shut_asleep(desk, TIMER_GATE | WATCHDOG_GATE)
    desk.chip.wait(700)
    assert desk.chip.resets == 0 and desk.chip.rp2040.core.waiting


def test_without_the_clocks_of_usb_the_harness_lets_it_miss_the_resume(
    desk: Desk,  # noqa: F811
) -> None:
    shut_asleep(desk, USB_GATES)
    core = desk.chip.rp2040.core
    naps = core.waits
    while core.waits == naps:
        desk.chip.wait(0.1)
    desk.chip.resume()
    desk.chip.wait(5)
    assert core.waiting


@pytest.mark.parametrize("waiting_ms", [50, 50.4, 50.8])
def test_a_bus_that_is_reset_ends_the_nap_at_once(
    desk: Desk,  # noqa: F811
    waiting_ms: float,
) -> None:
    """Whenever the next start of frame is due, which a bus has none of while it is reset."""
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(waiting_ms)
    desk.chip.cable.reset_bus()
    desk.chip.wait(0.1)
    assert not desk.chip.rp2040.core.waiting


def test_a_reset_right_after_the_bus_fell_asleep_leaves_the_keyboard_awake(
    desk: Desk,  # noqa: F811
) -> None:
    """SUSPENDED stays until it is cleared (datasheet section 4.1.4, SIE_STATUS)."""
    desk.chip.suspend()
    desk.chip.cable.reset_bus()
    desk.chip.wait(5)
    assert desk.chip.rp2040.core.waits == 0


def test_what_a_nap_was_to_be_ended_by_is_off_after_it(desk: Desk) -> None:  # noqa: F811
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(50)
    desk.chip.resume()
    desk.chip.wait(1)
    rp2040 = desk.chip.rp2040
    assert rp2040.core.enabled_interrupts == 0
    assert [rp2040.timer.read_uint32(offset) for offset in (timer.INTE, timer.ARMED)] == [0, 0]


def test_a_bus_that_wakes_ends_the_nap_at_once(desk: Desk) -> None:  # noqa: F811
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(50)
    desk.chip.resume()
    desk.chip.wait(0.2)
    assert not desk.chip.rp2040.core.waiting
    desk.chip.setup(bytes([0x80, 8, 0, 0, 0, 0, 1, 0]))
    desk.chip.wait(0.2)
    assert desk.chip.in_(0) == b"\1"


def test_a_bus_that_wakes_at_any_moment_of_falling_asleep_ends_the_nap(
    desk: Desk,  # noqa: F811
) -> None:
    chip, clocks = desk.chip, desk.chip.rp2040.clocks
    chip.share = 1
    check = clocks.changed
    resume = chip.clock.create_alarm(chip.resume)

    def falls_asleep(after_ns: int) -> None:
        clocks.changed = check
        resume.schedule(after_ns)
        check()

    for after_ns in range(0, 6000, 48):
        chip.wait(1)
        clocks.changed = functools.partial(falls_asleep, after_ns)
        chip.suspend()
        while clocks.changed is not check:
            chip.wait(0.05)
        chip.wait(0.15)
        assert not chip.rp2040.core.waiting and clocks.core_hz == 125e6, after_ns


def test_a_key_wakes_a_host_that_allows_it(desk: Desk) -> None:  # noqa: F811
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.wait(100)
    assert desk.chip.wakes == 0
    desk.chip.close_key("K00")
    desk.chip.wait(40)
    assert desk.chip.wakes == 1
    desk.chip.resume()
    assert desk.host.poll(5) == [any_number_report(0x04)]


def test_the_host_is_not_woken_before_the_bus_was_idle_for_5_ms(desk: Desk) -> None:  # noqa: F811
    """USB 2.0 section 7.1.7.7; SUSPENDED comes after 3 ms of an idle bus. Two naps are 20 ms."""
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.close_key("K00")
    desk.chip.wait(4)
    assert desk.chip.wakes == 0
    desk.chip.wait(24)
    assert desk.chip.wakes == 1


def test_a_host_that_does_not_wake_is_asked_again_by_the_next_key(
    desk: Desk,  # noqa: F811
) -> None:
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.close_key("K00")
    desk.chip.wait(30)
    assert desk.chip.wakes == 1
    desk.chip.wait(400)
    desk.chip.close_key("K01")
    desk.chip.wait(60)
    assert desk.chip.wakes == 2


def test_time_goes_on_while_the_bus_sleeps(desk: Desk) -> None:  # noqa: F811
    """A key's release, which comes 5 ms after it opened, is not lost in a nap."""
    desk.chip.close_key("K00")
    desk.host.poll(3)
    desk.chip.suspend()
    desk.chip.wait(30)
    desk.chip.open_key("K00")
    desk.chip.wait(60)
    desk.chip.close_key("K01")
    desk.chip.wait(30)
    desk.chip.resume()
    assert desk.host.poll(5)[-1] == any_number_report(0x05)
