"""The RP2040's firmware answers a host just as the AVRs' does: the very same tests, on rp2040py.

Emulated, not silicon: signals on the bus, the clocks' rates and erratum RP2040-E5 are not shown.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import ModuleType

import pytest

from tests.emulators.avr import test_enumeration, test_hid_requests, test_standard_requests
from tests.emulators.avr.conftest import Desk
from tests.emulators.keyboards import profile, square
from tests.emulators.rp2040.board import board
from tests.emulators.rp2040.builds import CONTROLLER, KINDS, built
from tests.emulators.usb_host import UsbHost

SHARE = 0.15
"""A turn of the loop takes 15 us, so that there are ten to each millisecond even so."""


@pytest.fixture(params=KINDS)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    """A fresh keyboard, enumerated, whose report is never repeated while idle."""
    keyboard, image = square(2, controller=CONTROLLER), built(request.param)
    with board(image, keyboard, profile(CONTROLLER)) as running:
        running.share = SHARE
        host = UsbHost(running)
        descriptors = host.enumerate()
        host.set_idle(0)
        yield Desk(running, host, keyboard, image, descriptors)


def sentences_of(module: ModuleType) -> dict[str, object]:
    return {name: value for name, value in vars(module).items() if name.startswith("test_")}


for shared in (test_enumeration, test_hid_requests, test_standard_requests):
    globals().update(sentences_of(shared))


def test_no_test_of_the_shared_ones_hides_another() -> None:
    modules = (test_enumeration, test_hid_requests, test_standard_requests)
    names = [name for module in modules for name in sentences_of(module)]
    assert len(names) == len(set(names)) > 30
