"""A sleeping bus that something disturbs, and a PLL that does not start.

The idle bus after a transient does not set SUSPI again (Atmel 7707, errata); the harness does as
the errata say, so the firmware has to notice by itself that nobody has woken.
"""

from __future__ import annotations

import pytest

from tests.emulators.avr.board import board
from tests.emulators.avr.conftest import Desk
from tests.emulators.avr.test_bus import allow_wake_up
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.usb_host import UsbHost

PLLCSR = 0x49
LIMIT_MS = 10
"""USB 2.0 section 7.1.7.6: after 10 ms of an idle bus no more than suspend current is drawn."""


def share_asleep(desk: Desk, milliseconds: int) -> float:
    before, slept = desk.chip.cycles, desk.chip.slept
    desk.chip.wait(milliseconds)
    return (desk.chip.slept - slept) / (desk.chip.cycles - before)


@pytest.mark.parametrize("disturbances", [1, 2, 5])
def test_a_keyboard_sleeps_on_after_its_bus_was_disturbed(desk: Desk, disturbances: int) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    for _ in range(disturbances):
        desk.chip.transient()
        desk.chip.wait(2.7)
    desk.chip.wait(LIMIT_MS)
    assert share_asleep(desk, 300) > 0.98
    assert desk.chip.peek(PLLCSR) == 0
    assert desk.chip.frozen_uses == 0


def test_a_disturbed_keyboard_can_still_wake_the_host(desk: Desk) -> None:
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.transient()
    desk.chip.wait(100)
    desk.chip.close_key("K00")
    desk.chip.wait(60)
    assert desk.chip.wakes == 1
    desk.chip.resume()
    assert desk.host.poll(5) == [any_number_report(0x04)]


@pytest.mark.parametrize("later_ms", [0.5, 3, 6, 100])
def test_a_disturbed_keyboard_still_notices_that_the_host_wakes(
    desk: Desk, later_ms: float
) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.transient()
    desk.chip.wait(later_ms)
    desk.chip.resume()
    desk.chip.close_key("K00")
    assert desk.host.poll(5) == [any_number_report(0x04)]
    assert desk.chip.frozen_uses == 0


@pytest.mark.parametrize("asleep_ms", [1, 6, 30, 100.3])
def test_the_end_of_a_reset_that_wakes_the_keyboard_is_not_slept_through(
    desk: Desk, asleep_ms: float
) -> None:
    """The block cannot see it while its clock stands still."""
    desk.chip.suspend()
    desk.chip.wait(asleep_ms)
    assert desk.host.enumerate().device == desk.descriptors.device
    assert desk.chip.lost_resets == 0


def test_a_pll_that_does_not_start_is_started_again_by_the_watchdog(desk: Desk) -> None:
    with board(desk.image, desk.mounted) as running:
        running.pll_fails(2)
        running.wait(600)
        assert running.attached == 1
        assert UsbHost(running).enumerate().device == desk.descriptors.device


def test_a_pll_that_does_not_start_after_a_nap_is_no_end_either(desk: Desk) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.pll_fails(1)
    desk.chip.resume()
    desk.chip.wait(400)
    assert desk.chip.attached == 2
    assert desk.host.enumerate().device == desk.descriptors.device
