"""The keyboard after another program that left the RP2040's blocks running: it types and sleeps."""

from __future__ import annotations

import functools

import pytest
from rp2040py.rp2040 import RP2040

from matrixgen.families import CompilerKind
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.keyboards import square
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.builds import CONTROLLER, KINDS, built
from tests.emulators.rp2040.leavings import leave, still_there
from tests.emulators.usb_host import UsbHost

SHARE = 0.15


def left(flash: bytes) -> Rp2040Board:
    """Return a board whose blocks run when the firmware begins."""

    def first_time(chip: RP2040) -> None:
        chip.ppb.on_vectors = lambda: None
        leave(chip)

    def before_power(chip: RP2040) -> None:
        chip.ppb.on_vectors = functools.partial(first_time, chip)

    return Rp2040Board(flash, before_power=before_power)


@pytest.mark.parametrize("kind", KINDS)
def test_the_keyboard_works_whatever_another_program_left(kind: CompilerKind) -> None:
    chip = left(built(kind).flash)
    assert chip.attached == 1 and chip.resets == 0
    assert still_there(chip.rp2040) == []
    chip.wire(square(2, controller=CONTROLLER))
    chip.share = SHARE
    host = UsbHost(chip)
    host.enumerate()
    host.set_idle(0)
    for key, usage in (("K00", 4), ("K01", 5), ("K10", 6), ("K11", 7)):
        chip.close_key(key)
        assert host.poll(3) == [any_number_report(usage)]
        chip.open_key(key)
        assert host.poll(10) == [any_number_report()]
    chip.share = 1
    chip.suspend()
    chip.wait(20)
    before, slept = chip.cycles, chip.slept
    chip.wait(100)
    assert (chip.slept - slept) / (chip.cycles - before) > 0.98


def test_what_was_left_is_seen_where_nobody_resets_it() -> None:
    chip = left(built("gcc").flash)
    leave(chip.rp2040)
    assert len(still_there(chip.rp2040)) == 4
