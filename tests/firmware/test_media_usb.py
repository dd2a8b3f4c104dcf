"""The second interface on the host port: chapter 9, HID requests, and its endpoint's hardships."""

from __future__ import annotations

import ctypes

import pytest
from hidtools.hid import ReportDescriptor

from tests.firmware.host_build import COMPILERS, STALL, host_view, shared_library
from tests.firmware.pads import every_media_key, media_pad
from tests.firmware.test_host_usb import (
    ALLOW_WAKE_UP,
    BUS_RESET,
    BUS_RESUME,
    BUS_SUSPEND,
    CLEAR_HALT,
    HALT_ENDPOINT,
    SET_BOOT_PROTOCOL,
    SET_CONFIGURATION_1,
    SET_INTERFACE_0,
    UsbKeyboard,
)
from tests.reports import NOTHING_DOWN, any_number

SET_INTERFACE_1 = bytes([0x01, 11, 0, 0, 1, 0, 0, 0])
UNSET_CONFIGURATION = bytes([0x00, 9, 0, 0, 0, 0, 0, 0])
HALT_MEDIA = bytes([0x02, 3, 0, 0, 0x82, 0, 0, 0])
CLEAR_MEDIA_HALT = bytes([0x02, 1, 0, 0, 0x82, 0, 0, 0])
STATUS_OF_MEDIA = bytes([0x82, 0, 0, 0, 0x82, 0, 2, 0])
STATUS_OF_KEYBOARD = bytes([0x82, 0, 0, 0, 0x81, 0, 2, 0])
SET_REPORT_PROTOCOL = bytes([0x21, 0x0B, 1, 0, 0, 0, 0, 0])

SLEEP, NO_SYSTEM_KEY, NO_CONSUMER_KEY = b"\x02\x01", b"\x02\x00", b"\x01\x00\x00"
VOLUME_UP = bytes([1, 1 << 7, 0])
"""Usage 0xE9 is the eighth of the pad's eleven."""


class MediaKeyboard(UsbKeyboard):
    def restart(self) -> None:
        super().restart()
        self.down: set[str] = set()

    def toggle(self, key: str) -> None:
        self.down ^= {key}
        self.close(key, key in self.down)

    def media(self) -> bytes | None:
        return self._taken(lambda buffer: self.c.host_take_packet(2, buffer))

    def refuses(self, setup: bytes) -> bool:
        self.c.host_send_setup(setup)
        self.turn()
        return self.c.host_take_in((ctypes.c_uint8 * 64)()) == STALL

    def tell(self, key: str, down: bool) -> None:
        """Close or open a key, and let the firmware make a report of it."""
        self.close(key, down)
        self.turn()
        if not down:
            self.c.host_advance_ms(10)
            self.turn()


@pytest.fixture(scope="module", params=COMPILERS)
def library(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param)
    built = shared_library(media_pad(), folder, request.param, with_usb=True)
    return MediaKeyboard(built, host_view(media_pad()))


@pytest.fixture
def keys(library):
    library.restart()
    library.configure()
    yield library
    assert library.faults() == 0


# --- chapter 9 and the HID class ---

# section, SETUP packet, answer
ANSWERED = [
    ("USB 9.4.4", [0x81, 10, 0, 0, 1, 0, 1, 0], b"\0"),
    ("USB 9.4.5", [0x81, 0, 0, 0, 1, 0, 2, 0], b"\0\0"),
    ("USB 9.4.5", [0x82, 0, 0, 0, 0x82, 0, 2, 0], b"\0\0"),
    ("HID 7.2.1", [0xA1, 1, 1, 1, 1, 0, 16, 0], NO_CONSUMER_KEY),
    ("HID 7.2.1", [0xA1, 1, 2, 1, 1, 0, 16, 0], NO_SYSTEM_KEY),
    ("HID 7.2.3", [0xA1, 2, 1, 0, 1, 0, 1, 0], b"\0"),
    ("HID 7.2.3, of the keyboard", [0xA1, 2, 0, 0, 0, 0, 1, 0], b"\x7d"),
]
ACCEPTED = [
    ("USB 9.4.10", SET_INTERFACE_1),
    ("USB 9.4.9", HALT_MEDIA),
    ("USB 9.4.1", CLEAR_MEDIA_HALT),
    ("HID 7.2.4", bytes([0x21, 10, 0, 0, 1, 0, 0, 0])),
    ("HID 7.2.4, of one report", bytes([0x21, 10, 2, 0, 1, 0, 0, 0])),
]
REFUSED = [
    ("USB 9.4.4, no such interface", [0x81, 10, 0, 0, 2, 0, 1, 0]),
    ("USB 9.4.5, no such endpoint", [0x82, 0, 0, 0, 0x83, 0, 2, 0]),
    ("USB 9.4.5, no OUT endpoint", [0x82, 0, 0, 0, 0x02, 0, 2, 0]),
    ("USB 9.4.10, no such setting", [0x01, 11, 1, 0, 1, 0, 0, 0]),
    ("USB 9.4.10, no such interface", [0x01, 11, 0, 0, 2, 0, 0, 0]),
    ("USB 9.4.9, no such feature", [0x02, 3, 1, 0, 0x82, 0, 0, 0]),
    ("USB 9.4.11, isochronous only", [0x82, 12, 0, 0, 0x82, 0, 2, 0]),
    ("HID 7.1.1, no physical descriptor", [0x81, 6, 0, 0x23, 1, 0, 255, 0]),
    ("HID 7.1.1, no such interface", [0x81, 6, 0, 0x22, 2, 0, 255, 0]),
    ("HID 7.2.1, no report 0", [0xA1, 1, 0, 1, 1, 0, 16, 0]),
    ("HID 7.2.1, no report 3", [0xA1, 1, 3, 1, 1, 0, 16, 0]),
    ("HID 7.2.1, no output report", [0xA1, 1, 1, 2, 1, 0, 1, 0]),
    ("HID 7.2.2, no output report", [0x21, 9, 1, 2, 1, 0, 1, 0]),
    ("HID 7.2.4, never repeated", [0x21, 10, 0, 5, 1, 0, 0, 0]),
    ("HID 7.2.5, boot devices only", [0xA1, 3, 0, 0, 1, 0, 1, 0]),
    ("HID 7.2.6, boot devices only", [0x21, 11, 0, 0, 1, 0, 0, 0]),
]


@pytest.mark.parametrize(("section", "setup", "answer"), ANSWERED, ids=lambda case: str(case))
def test_the_second_interface_answers(keys, section, setup, answer) -> None:
    assert keys.read(bytes(setup)) == answer


@pytest.mark.parametrize(("section", "setup"), ACCEPTED, ids=lambda case: str(case))
def test_the_second_interface_does(keys, section, setup) -> None:
    keys.write(setup)


@pytest.mark.parametrize(("section", "setup"), REFUSED, ids=lambda case: str(case))
def test_what_the_second_interface_cannot_do_is_answered_by_stall(keys, section, setup) -> None:
    assert keys.refuses(bytes(setup))
    keys.tell("Sleep", True)
    assert keys.media() == SLEEP, "it must go on working"


def test_an_unconfigured_keyboard_has_no_second_interface(keys) -> None:
    keys.write(UNSET_CONFIGURATION)
    for _, setup, _ in ANSWERED[:6]:
        assert keys.refuses(bytes(setup))
    for _, setup in ACCEPTED:
        assert keys.refuses(setup)
    assert keys.media() is None


@pytest.mark.parametrize("board", [media_pad, every_media_key])
def test_a_report_descriptor_of_any_length_comes_whole(board, tmp_path) -> None:
    """USB 2.0 section 9.4.3: as much as asked for, or as there is."""
    view = host_view(board())
    keys = MediaKeyboard(shared_library(board(), tmp_path, with_usb=True), view)
    keys.configure()
    length = view.media.descriptor_bytes
    whole = keys.read(report_descriptor(length))
    assert whole is not None and ReportDescriptor.from_bytes(list(whole)).input_reports
    for asked in (9, 100, length - 1, length, length + 1, 300, 512, 0xFFFF):
        assert keys.read(report_descriptor(asked)) == whole[:asked]


def report_descriptor(length: int) -> bytes:
    return bytes([0x81, 6, 0, 0x22, 1, 0, length & 0xFF, length >> 8])


# --- the endpoint ---


def test_each_interface_types_into_its_own_endpoint(keys) -> None:
    keys.tell("Up", True)
    assert (keys.packet(), keys.media()) == (None, VOLUME_UP)
    keys.tell("A", True)
    assert (keys.packet(), keys.media()) == (any_number(0, 4), None)
    assert keys.read(bytes([0xA1, 1, 1, 1, 1, 0, 16, 0])) == VOLUME_UP


def test_the_boot_protocol_silences_the_second_interface_until_it_ends(keys) -> None:
    keys.write(SET_BOOT_PROTOCOL)
    keys.tell("Up", True)
    assert keys.media() is None
    keys.write(SET_REPORT_PROTOCOL)
    keys.turn()
    assert keys.media() == VOLUME_UP


@pytest.mark.parametrize(
    "requests",
    [
        [CLEAR_MEDIA_HALT],
        [HALT_MEDIA, CLEAR_MEDIA_HALT],
        [SET_INTERFACE_1],
        [SET_CONFIGURATION_1],
    ],
)
def test_a_release_that_an_emptied_endpoint_lost_is_told_again(keys, requests) -> None:
    """USB 2.0 sections 9.1.1.5 and 9.4.5; reports of both kinds, since either may have waited."""
    keys.tell("Up", True)
    assert keys.media() == VOLUME_UP
    keys.tell("Up", False)
    for request in requests:
        keys.write(request)
    keys.turn()
    assert keys.media() == NO_CONSUMER_KEY
    keys.turn()
    assert keys.media() == NO_SYSTEM_KEY
    keys.turn()
    assert keys.media() is None


def test_a_report_that_was_taken_is_not_told_again(keys) -> None:
    keys.tell("Up", True)
    assert keys.media() == VOLUME_UP
    keys.turn()
    for request in (CLEAR_MEDIA_HALT, SET_INTERFACE_1):
        keys.write(request)
        keys.turn()
    assert keys.media() is None


def test_one_interface_set_anew_leaves_the_other_alone(keys) -> None:
    keys.write(HALT_ENDPOINT)
    keys.write(HALT_MEDIA)
    keys.write(SET_INTERFACE_0)
    assert keys.read(STATUS_OF_KEYBOARD) == b"\0\0"
    assert keys.read(STATUS_OF_MEDIA) == b"\1\0"
    keys.write(HALT_ENDPOINT)
    keys.write(SET_INTERFACE_1)
    assert keys.read(STATUS_OF_KEYBOARD) == b"\1\0"
    assert keys.read(STATUS_OF_MEDIA) == b"\0\0"
    keys.write(CLEAR_HALT)
    assert keys.read(STATUS_OF_KEYBOARD) == b"\0\0"


def test_a_bus_reset_ends_a_halt_and_loses_no_release(keys) -> None:
    keys.tell("Up", True)
    assert keys.media() == VOLUME_UP
    keys.tell("Up", False)
    keys.write(HALT_MEDIA)
    keys.c.host_bus(BUS_RESET)
    keys.turn()
    keys.configure()
    assert keys.media() == NO_CONSUMER_KEY


def test_a_media_key_wakes_the_host_and_is_typed(keys) -> None:
    keys.write(ALLOW_WAKE_UP)
    keys.c.host_bus(BUS_SUSPEND)
    keys.turn()
    keys.close("Wake", True)
    keys.turn()
    assert keys.c.host_wakes() == 1
    keys.c.host_bus(BUS_RESUME)
    keys.turn()
    assert keys.media() == b"\x02\x02"


def test_a_keyboard_types_on_where_nobody_asks_for_media_keys(keys) -> None:
    keys.tell("Up", True)
    keys.tell("A", True)
    assert keys.packet() is None, "a host that may yet ask is waited for"
    keys.c.host_advance_ms(50)
    keys.turn()
    assert keys.packet() == any_number(0, 4)
    keys.tell("Up", False)
    keys.tell("A", False)
    assert keys.packet() == NOTHING_DOWN, "and then no more"
    assert keys.media() == VOLUME_UP
    keys.turn()
    assert keys.media() == NO_CONSUMER_KEY
