"""The keyboard after a boot loader that left the chip in any state: it types, sleeps and wakes."""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.avr.board import board
from tests.emulators.avr.conftest import BUILDS, built
from tests.emulators.avr.leavings import Leavings, all_leavings, leavings_of
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost

MCUCR, JTD, PLLCSR, WDTCSR = 0x55, 0x80, 0x49, 0x60
USED = {MCUCR, PLLCSR, WDTCSR, *(0xD8, 0xE0, 0xE2, 0xE3), *(0x5D, 0x5E, 0x5F)}
"""PLL, watchdog, USB block, stack and flags are the keyboard's own afterwards."""
TIMER_1 = (0x80, 0x81)

EVERY = [
    (chip, kind, what, leavings)
    for chip, kind in BUILDS
    for what, leavings in {
        "nothing": {},
        **leavings_of(chip),
        "all of it": all_leavings(chip),
    }.items()
]


@pytest.mark.parametrize(
    ("chip", "kind", "leavings"),
    [(chip, kind, leavings) for chip, kind, _, leavings in EVERY],
    ids=["-".join(case[:3]) for case in EVERY],
)
def test_the_keyboard_works_whatever_the_boot_loader_left(
    chip: str, kind: CompilerKind, leavings: Leavings
) -> None:
    mounted = square(2, controller=chip)
    with board(built(chip, kind), mounted, leavings) as running:
        host = UsbHost(running)
        host.enumerate()
        host.set_idle(0)
        for key, usage in (("K00", 4), ("K01", 5), ("K10", 6), ("K11", 7)):
            running.close_key(key)
            assert host.poll(3) == [any_number_report(usage)]
            running.open_key(key)
            assert host.poll(10) == [any_number_report()]
        running.suspend()
        running.wait(20)
        before, slept = running.cycles, running.slept
        running.wait(300)
        assert (running.slept - slept) / (running.cycles - before) > 0.98
        assert running.attached == 1
        running.resume()
        running.close_key("K00")
        assert host.poll(5) == [any_number_report(0x04)]
        left = {address: running.peek(address) for address in leavings.keys() - USED}
        assert left == dict.fromkeys(left, 0)
        assert running.peek(MCUCR) & ~JTD == 0
