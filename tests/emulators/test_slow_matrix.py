"""A matrix so slow that a turn of the main loop takes milliseconds: a second is still a second.

The firmware's time is seen from outside by when it tells of a release, which it does once the
debounce time has passed since the switch last moved.
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

LINES, SETTLE_US, DEBOUNCE_MS = 4, 440, 200
TURN_MS = 2
"""No turn of the loop is longer, or SET_ADDRESS is not obeyed in time (USB 2.0, 9.2.6.3)."""


def slow(controller: str) -> Mounted:
    """Return a keyboard of sixteen keys whose lines take 440 us each."""
    fast = square(LINES, controller=controller)
    wiring = changed(fast.keyboard.wiring, settle_us=Number(SETTLE_US, SPAN))
    debounced = Number(DEBOUNCE_MS, SPAN)
    keyboard = changed(fast.keyboard, wiring=wiring, debounce_ms=debounced)
    return Mounted(keyboard, fast.mounting, fast.profile)


@pytest.mark.parametrize("controller", ["atmega32u4", "at90usb162", "rp2040"])
def test_every_millisecond_of_a_long_turn_counts(controller: str) -> None:
    mounted = slow(controller)
    board = rp2040_board if controller == "rp2040" else avr_board
    with board(image_of(mounted, "gcc"), mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        chip.close_key("K00")
        assert len(host.poll(5 * TURN_MS)) == 1
        chip.open_key("K00")
        began = chip.cycles
        assert chip.until_report(3 * DEBOUNCE_MS)
        passed = (chip.cycles - began) / chip.cycles_per_ms
    assert DEBOUNCE_MS <= passed <= DEBOUNCE_MS + 3 * TURN_MS
