"""The RP2040's firmware answers a host just as the AVRs' does: the very same tests, on rp2040py.

Emulated, not silicon: signals on the bus, the clocks' rates and erratum RP2040-E5 are not shown.
"""

from __future__ import annotations

import functools
import struct
from collections.abc import Iterator
from types import FunctionType, ModuleType

import pytest

from tests.emulators.avr import test_enumeration, test_hid_requests, test_standard_requests
from tests.emulators.avr.conftest import Desk
from tests.emulators.keyboards import square
from tests.emulators.rp2040.board import board
from tests.emulators.rp2040.builds import CONTROLLER, KINDS, SHARE, built
from tests.emulators.rp2040.chip import B1, B2
from tests.emulators.usb_host import UsbHost

REVISIONS = {"gcc": B2, "clang": B1}
"""Each compiler's firmware on another revision of the chip, so that both have all the tests."""


@pytest.fixture(params=KINDS)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    """A fresh keyboard, enumerated, whose report is never repeated while idle."""
    mounted, image = square(2, controller=CONTROLLER), built(request.param)
    with board(image, mounted, REVISIONS[request.param]) as running:
        running.share = SHARE
        host = UsbHost(running)
        descriptors = host.enumerate()
        host.set_idle(0)
        yield Desk(running, host, mounted, image, descriptors)


REPORT_DESCRIPTOR = struct.pack("<BBHHH", 0x81, 6, 0x2200, 0, 255)
IDLE_MS = 1020
"""The longest that a host can ask for: 255 times 4 ms."""

NO_SUCH_REQUEST = struct.pack("<BBHHH", 0xC0, 99, 0, 0, 8)
DEVICE_DESCRIPTOR = struct.pack("<BBHHH", 0x80, 6, 0x0100, 0, 18)


@pytest.mark.parametrize("taken", [0, 1])
def test_what_a_host_did_not_want_is_not_there_for_its_next_transfer(
    desk: Desk, taken: int
) -> None:
    """USB 2.0 section 8.5.3: the next SETUP may be followed by IN before the firmware looks."""
    desk.chip.setup(REPORT_DESCRIPTOR)
    desk.chip.wait(1)
    for _ in range(taken):
        desk.chip.in_(0)
        desk.chip.wait(1)
    assert desk.chip.out(0, b"")
    desk.chip.wait(1)
    desk.chip.cable.setup(DEVICE_DESCRIPTOR)
    assert desk.chip.in_(0) is None
    desk.chip.wait(1)
    assert desk.chip.in_(0) == desk.descriptors.device


@pytest.mark.parametrize("buffer", [0, 1])
def test_a_setup_that_comes_while_a_packet_is_made_ready_voids_it(desk: Desk, buffer: int) -> None:
    cable = desk.chip.cable

    too_late: list[bool] = []

    def prepared(which: int) -> None:
        if which == buffer:
            cable.on_prepared = lambda buffer: None
            cable.setup(DEVICE_DESCRIPTOR)

    cable.on_prepared = prepared
    cable.on_given = lambda which: too_late.append(cable.setup_waits)
    desk.chip.setup(REPORT_DESCRIPTOR)
    desk.chip.wait(1)
    assert len(too_late) > 1 and not any(too_late), "the new SETUP finds what it did not ask for"
    assert desk.chip.in_(0) == desk.descriptors.device


def test_a_setup_that_comes_while_a_refusal_is_made_ready_is_not_refused(desk: Desk) -> None:
    """The controller forgets a STALL at a SETUP; the firmware may be about to ask for one."""
    cable = desk.chip.cable

    def stalls() -> None:
        cable.on_stall = lambda: None
        cable.setup(DEVICE_DESCRIPTOR)

    cable.on_stall = stalls
    cable.setup(NO_SUCH_REQUEST)
    while cable.on_stall is stalls:
        desk.chip.run(100)
    for _ in range(40):  # a token takes 2 us, so that the host asks after 1 us at the earliest
        desk.chip.run(125)
        desk.chip.in_(0)


def test_a_packet_that_is_too_long_stays_within_its_buffer(desk: Desk) -> None:
    desk.chip.cable.may_be_too_long = True
    desk.chip.setup(struct.pack("<BBHHH", 0x21, 9, 0x0100, 0, 32))
    desk.chip.wait(1)
    assert b"\xee" * 8 not in bytes(desk.chip.rp2040.sram)
    assert desk.chip.out(0, b"\xee" * 80)
    desk.chip.wait(1)
    assert b"\xee" * 64 in bytes(desk.chip.rp2040.sram)
    assert b"\xee" * 65 not in bytes(desk.chip.rp2040.sram)


def test_no_endpoint_answers_that_the_firmware_has_not_opened(desk: Desk) -> None:
    """The block's memory holds junk at power-on, enabled endpoints among it (section 4.1.2.5)."""
    memory = desk.chip.rp2040.usb_dpram
    for endpoint in range(1, 16):
        assert desk.chip.out(endpoint, b"") is False
        assert desk.chip.in_(endpoint) is None or endpoint == 1
    opened = {8, 9, 10, 11}
    assert not any(byte for place, byte in enumerate(memory[8:0x80], 8) if place not in opened)


@pytest.mark.parametrize("endpoint", [0, 1])
def test_what_waited_before_a_reset_of_the_bus_is_gone_after_it(desk: Desk, endpoint: int) -> None:
    """USB 2.0 section 9.1.1.3: the device is in its default state, whatever was under way."""
    desk.chip.setup(REPORT_DESCRIPTOR)
    desk.chip.close_key("K00")
    desk.chip.wait(3)
    desk.chip.reset()
    assert desk.chip.in_(endpoint) is None
    controls = desk.chip.rp2040.usb_dpram[0x80:0x100]
    assert not any(controls), "a buffer is still the controller's, or stalls"
    assert not any(desk.chip.rp2040.usb_dpram[8:0x80]), "an endpoint is still open"
    assert desk.chip.address == 0


def test_a_second_has_a_thousand_milliseconds(desk: Desk) -> None:
    """Seen from outside in what a held key's report is repeated after (HID 1.11, section 7.2.4)."""
    desk.host.set_idle(IDLE_MS)
    desk.chip.share = 0.05
    desk.chip.close_key("K00")
    seen: list[float] = []
    for _ in range(9 * IDLE_MS):
        desk.chip.wait(0.25)
        if len(seen) < 3 and desk.chip.in_(1) is not None:
            seen.append(desk.chip.cycles / desk.chip.cycles_per_ms)
    assert abs(seen[2] - seen[0] - 2 * IDLE_MS) <= 0.75, seen


@pytest.mark.parametrize("endpoint", [0, 1])
def test_a_packet_that_was_given_is_taken_back_as_the_revision_wants_it(
    desk: Desk, endpoint: int
) -> None:
    """RP2040-E2: EP_ABORT works from B2 on; the harness complains of either in the wrong place."""
    desk.chip.setup(REPORT_DESCRIPTOR)
    desk.chip.close_key("K00")
    desk.chip.wait(3)
    if endpoint == 0:
        desk.chip.setup(DEVICE_DESCRIPTOR)
        desk.chip.wait(1)
        assert desk.chip.in_(0) == desk.descriptors.device
    else:
        desk.chip.reset()
        assert desk.chip.in_(1) is None


def sentences_of(module: ModuleType) -> dict[str, FunctionType]:
    return {name: value for name, value in vars(module).items() if name.startswith("test_")}


def in_turn(test: FunctionType) -> object:
    """A test of the AVRs' with one compiler's image in the suite: here, and not where it is from.

    Each compiler's image is on another revision of the chip.
    """
    own = FunctionType(test.__code__, test.__globals__, test.__name__, test.__defaults__)
    return pytest.mark.compilers_in_turn(functools.update_wrapper(own, test))


for shared in (test_enumeration, test_hid_requests, test_standard_requests):
    globals().update({name: in_turn(test) for name, test in sentences_of(shared).items()})


def test_no_test_of_the_shared_ones_hides_another() -> None:
    modules = (test_enumeration, test_hid_requests, test_standard_requests)
    names = [name for module in modules for name in sentences_of(module)]
    assert len(names) == len(set(names)) > 30
