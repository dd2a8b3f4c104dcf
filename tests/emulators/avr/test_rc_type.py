"""A bare ATmega32U4 of the type that starts on its own RC oscillator, from which USB cannot run."""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.avr.board import AvrBoard
from tests.emulators.avr.conftest import built
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost

CHIP = "atmega32u4"


@pytest.mark.parametrize("kind", ["gcc", "clang"])
def test_a_chip_of_the_rc_type_runs_from_the_crystal_before_it_attaches(kind: CompilerKind) -> None:
    """The judge says so if it does not."""
    running = AvrBoard(built(CHIP, kind), square(2, controller=CHIP).profile)
    running.rc_type()
    assert len(UsbHost(running).enumerate().device) == 18
    running.close()


def test_a_crystal_that_never_starts_is_waited_for_by_a_chip_that_starts_anew() -> None:
    running = AvrBoard(built(CHIP, "gcc"), square(2, controller=CHIP).profile)
    running.rc_type(crystal_starts=False)
    running.wait(900)
    assert running.attached == 0
    running.rc_type(crystal_starts=True)
    running.wait(400)
    assert running.attached == 1
    running.close()
