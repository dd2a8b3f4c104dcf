"""The RP2040's bus asleep and awake, and its watchdog, as far as the emulator has them.

rp2040py has no suspend, resume or remote wake-up; the harness sets the flags that the datasheet
says the controller sets. So these tests show that the firmware follows the datasheet, not that
silicon does.
"""

from __future__ import annotations

import pytest

from tests.emulators.avr.conftest import Desk
from tests.emulators.avr.test_bus import (  # noqa: F401
    allow_wake_up,
    test_a_bus_reset_wakes_a_suspended_keyboard,
    test_a_key_does_not_wake_a_host_that_has_not_allowed_it,
    test_a_program_that_hangs_is_restarted_by_the_watchdog,
    test_keys_pressed_and_released_asleep_are_not_stuck_afterwards,
    test_the_host_is_not_woken_before_the_bus_was_idle_for_5_ms,
    test_the_watchdog_is_fed_awake_and_asleep,
)
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.rp2040.test_boot import PLL_SYS, PLL_USB
from tests.emulators.rp2040.test_usb import desk  # noqa: F401


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


def test_a_nap_stops_the_cores_pll_but_not_that_of_usb(desk: Desk) -> None:  # noqa: F811
    """Datasheet section 2.11: what still has a clock decides what sleep costs."""
    chip = desk.chip
    chip.share = 1
    chip.suspend()
    chip.wait(20)
    napping = 0
    for _ in range(100):
        chip.wait(0.37)
        napping += (chip.rp2040.clocks.sys_ctrl, chip.pll_hertz(PLL_SYS)) == (0, 0)
        assert chip.pll_hertz(PLL_USB) == 48e6
        assert chip.rp2040.clocks.usb_ctrl == 1 << 11
        assert chip.rp2040.clocks.ref_ctrl == 2
    assert napping > 90
    chip.resume()
    chip.wait(1)
    assert (chip.rp2040.clocks.sys_ctrl, chip.pll_hertz(PLL_SYS)) == (1, 125e6)
    chip.share = 0.15
    chip.close_key("K00")
    assert desk.host.poll(3) == [any_number_report(0x04)]


def test_a_bus_that_wakes_ends_the_nap_at_once(desk: Desk) -> None:  # noqa: F811
    desk.chip.share = 1
    desk.chip.suspend()
    desk.chip.wait(50)
    desk.chip.resume()
    desk.chip.wait(0.2)
    desk.chip.setup(bytes([0x80, 8, 0, 0, 0, 0, 1, 0]))
    desk.chip.wait(0.2)
    assert desk.chip.in_(0) == b"\1"


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
