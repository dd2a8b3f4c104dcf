"""The usb folder on the host port: a host that enumerates the keyboard gets what is typed."""

from __future__ import annotations

import ctypes
from collections.abc import Callable

import pytest

from tests.firmware.host_build import NAK, STALL, HostKeyboard, host_view, shared_library
from tests.firmware.pads import LEFT_SHIFT, small_pad
from tests.reports import NOTHING_DOWN, REPORT_BYTES, any_number

BUS_RESET, BUS_SUSPEND, BUS_RESUME = 1, 2, 4
GET_DEVICE = bytes([0x80, 6, 0, 1, 0, 0, 18, 0])
SET_ADDRESS_9 = bytes([0x00, 5, 9, 0, 0, 0, 0, 0])
SET_CONFIGURATION_1 = bytes([0x00, 9, 1, 0, 0, 0, 0, 0])
SET_BOOT_PROTOCOL = bytes([0x21, 0x0B, 0, 0, 0, 0, 0, 0])
ALLOW_WAKE_UP = bytes([0x00, 3, 1, 0, 0, 0, 0, 0])
SET_INTERFACE_0 = bytes([0x01, 11, 0, 0, 0, 0, 0, 0])
HALT_ENDPOINT = bytes([0x02, 3, 0, 0, 0x81, 0, 0, 0])
CLEAR_HALT = bytes([0x02, 1, 0, 0, 0x81, 0, 0, 0])
NO_REPORT_WHILE_IDLE = bytes([0x21, 0x0A, 0, 0, 0, 0, 0, 0])
GET_KEYBOARD_REPORT = bytes([0xA1, 1, 0, 1, 0, 0, REPORT_BYTES, 0])


class UsbKeyboard(HostKeyboard):
    """The whole firmware; the host's side of each transfer in one call."""

    def restart(self) -> None:
        self.c.host_reset()
        self.c.loop_start()
        self.c.host_bus(BUS_RESET)
        self.turn()

    def turn(self, times: int = 3) -> None:
        for _ in range(times):
            self.c.loop_step()

    def read(self, setup: bytes) -> bytes | None:
        """A control transfer to the host, its status stage included; None for STALL."""
        answer = b""
        self.c.host_send_setup(setup)
        while True:
            self.turn()
            packet = self._taken(self.c.host_take_in)
            if packet is None:
                return None
            answer += packet
            if len(packet) < 64 or len(answer) == setup[6] | setup[7] << 8:
                assert self.c.host_send_out(b"", 0)
                self.turn()
                return answer

    def write(self, setup: bytes) -> None:
        """A control transfer without data."""
        self.c.host_send_setup(setup)
        self.turn()
        assert self._taken(self.c.host_take_in) == b""
        self.turn()

    def configure(self) -> None:
        self.write(SET_ADDRESS_9)
        self.write(SET_CONFIGURATION_1)

    def packet(self) -> bytes | None:
        return self._taken(lambda buffer: self.c.host_take_packet(1, buffer))

    @staticmethod
    def _taken(take: Callable[[ctypes.Array[ctypes.c_uint8]], int]) -> bytes | None:
        buffer = (ctypes.c_uint8 * 64)()
        length = take(buffer)
        return None if length in (NAK, STALL) else bytes(buffer[:length])


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    folder = tmp_path_factory.mktemp("usb")
    return UsbKeyboard(shared_library(small_pad(), folder, with_usb=True), host_view(small_pad()))


@pytest.fixture
def keys(library):
    library.restart()
    yield library
    assert library.faults() == 0


def test_the_device_descriptor_has_the_identity_of_the_file(keys) -> None:
    answer = keys.read(GET_DEVICE)
    assert answer[:2] == bytes([18, 1])
    assert answer[8:14] == bytes([0x09, 0x12, 0x01, 0x00, 0x00, 0x01])


def test_a_configured_keyboard_types_into_its_endpoint(keys) -> None:
    keys.configure()
    assert keys.c.host_address() == 9
    keys.close("A", True)
    keys.turn(1)
    assert keys.packet() == any_number(0, 4)
    assert keys.read(GET_KEYBOARD_REPORT) == any_number(0, 4)


def test_boot_protocol_gives_boot_reports(keys) -> None:
    keys.configure()
    keys.write(SET_BOOT_PROTOCOL)
    keys.close("Shift", True)
    keys.close("A", True)
    keys.turn(1)
    keys.packet()
    keys.turn(1)
    assert keys.packet() == bytes([LEFT_SHIFT, 0, 4, 0, 0, 0, 0, 0])


def test_a_key_pressed_while_the_bus_sleeps_wakes_the_host_and_is_typed(keys) -> None:
    keys.configure()
    keys.write(ALLOW_WAKE_UP)
    keys.c.host_bus(BUS_SUSPEND)
    keys.turn()
    assert keys.c.host_naps() > 0
    keys.close("A", True)
    keys.turn()
    assert keys.c.host_wakes() == 1
    keys.c.host_bus(BUS_RESUME)
    keys.turn()
    assert keys.packet() == any_number(0, 4)


def test_a_key_let_go_while_the_bus_slept_is_up_for_the_host_too(keys) -> None:
    keys.configure()
    keys.close("A", True)
    keys.turn(1)
    keys.packet()
    keys.c.host_bus(BUS_SUSPEND)
    keys.turn()
    keys.close("A", False)
    keys.turn(5)
    keys.c.host_bus(BUS_RESUME)
    keys.turn()
    assert keys.packet() == NOTHING_DOWN


def let_go_untold(keys) -> None:
    """A goes down and the host hears it; then A goes up, and that report waits in the endpoint."""
    keys.configure()
    keys.write(NO_REPORT_WHILE_IDLE)
    keys.close("A", True)
    keys.turn()
    assert keys.packet() == any_number(0, 4)
    keys.close("A", False)
    keys.turn()
    keys.c.host_advance_ms(10)
    keys.turn()


@pytest.mark.parametrize(
    "requests",
    [
        [CLEAR_HALT],
        [HALT_ENDPOINT, CLEAR_HALT],
        [SET_INTERFACE_0],
        [SET_CONFIGURATION_1],
    ],
)
def test_a_release_that_an_emptied_endpoint_lost_is_told_again(keys, requests) -> None:
    """USB 2.0 sections 9.1.1.5 and 9.4.5 empty the endpoint; the key must not stick for that."""
    let_go_untold(keys)
    for request in requests:
        keys.write(request)
    keys.turn()
    assert keys.packet() == NOTHING_DOWN
    keys.turn()
    assert keys.packet() is None


def test_a_release_that_a_bus_reset_lost_is_told_again(keys) -> None:
    let_go_untold(keys)
    keys.c.host_bus(BUS_RESET)
    keys.turn()
    keys.configure()
    assert keys.packet() == NOTHING_DOWN


def test_a_report_that_was_taken_is_not_told_again(keys) -> None:
    let_go_untold(keys)
    assert keys.packet() == NOTHING_DOWN
    keys.turn()
    keys.write(CLEAR_HALT)
    keys.write(SET_INTERFACE_0)
    assert keys.packet() is None
