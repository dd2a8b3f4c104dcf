"""A matrix so slow that a turn of the main loop takes milliseconds: a second is still a second.

The firmware's time is read off the reports that a keyboard repeats for a host that set an idle time
(HID 1.11 section 7.2.4).
"""

from __future__ import annotations

import pytest

from matrixgen.boards import Mounted
from matrixgen.model import Number
from matrixgen.record import changed
from tests.emulators.avr.board import board as avr_board
from tests.emulators.images import image_of
from tests.emulators.keyboards import SPAN, square
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.usb_host import UsbHost

LINES, SETTLE_US = 4, 700
IDLE_MS, REPEATS = 100, 5
TURN_MS = 4
"""No turn of the loop is longer: the lines' times, and what is done once a turn."""


def slow(controller: str) -> Mounted:
    fast = square(LINES, controller=controller)
    wiring = changed(fast.keyboard.wiring, settle_us=Number(SETTLE_US, SPAN))
    return Mounted(changed(fast.keyboard, wiring=wiring), fast.mounting, fast.profile)


@pytest.mark.parametrize("controller", ["atmega32u4", "at90usb162", "rp2040"])
def test_every_millisecond_of_a_long_turn_counts(controller: str) -> None:
    mounted = slow(controller)
    board = rp2040_board if controller == "rp2040" else avr_board
    with board(image_of(mounted, "gcc"), mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(IDLE_MS)
        chip.close_key("K00")
        assert chip.until_report(5 * TURN_MS)
        chip.in_(1)
        began = chip.cycles
        for _ in range(REPEATS):
            assert chip.until_report(3 * IDLE_MS)
            chip.in_(1)
        passed = (chip.cycles - began) / chip.cycles_per_ms
    assert REPEATS * IDLE_MS <= passed <= REPEATS * (IDLE_MS + TURN_MS)
