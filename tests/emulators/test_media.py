"""Media keys on the emulated chips: two interfaces, two endpoints, each report where it belongs."""

from __future__ import annotations

import functools
import struct
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from hidtools.hid import ReportDescriptor

from matrixgen.boards import Mounted
from matrixgen.families import CompilerKind
from matrixgen.model import Media
from matrixgen.toolchain import Image
from tests.emulators.at_a_host import at_a_host
from tests.emulators.avr.board import AvrBoard
from tests.emulators.images import image_of
from tests.emulators.keyboards import square, with_media_keys
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.usb_host import Descriptors, Stall, UsbHost
from tests.reports import NOTHING_DOWN, any_number

pytestmark = pytest.mark.chips_in_turn
CHIPS = ("atmega32u4", "at90usb162", "rp2040")
COMPILERS: tuple[CompilerKind, ...] = ("gcc", "clang")
KEYS = {"K01": Media(0x0C, 0xE9), "K10": Media(0x0C, 0x192), "K11": Media(0x01, 0x82)}
"""Volume up, calculator, sleep; K00 is a key of the keyboard page."""

VOLUME_UP, CALCULATOR, SLEEP = b"\x01\x01", b"\x01\x02", b"\x02\x01"
NO_CONSUMER_KEY, NO_SYSTEM_KEY = b"\x01\x00", b"\x02\x00"
MEDIA = 0x82
"""The address of the second interface's endpoint."""


@dataclass
class Desk:
    chip: AvrBoard | Rp2040Board
    host: UsbHost
    descriptors: Descriptors


@functools.cache
def built(chip: str, kind: CompilerKind) -> tuple[Mounted, Image]:
    mounted = with_media_keys(square(2, controller=chip), KEYS)
    return mounted, image_of(mounted, kind)


@pytest.fixture(params=[(chip, kind) for chip in CHIPS for kind in COMPILERS], ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    chip, kind = request.param
    mounted, image = built(chip, kind)
    with at_a_host(image, mounted) as plugged_in:
        yield Desk(*plugged_in)


@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("chip", CHIPS)
def test_an_image_without_media_keys_has_no_trace_of_them(chip: str, kind: CompilerKind) -> None:
    """An endpoint descriptor of USB 2.0 table 9-13, and how the report descriptor begins."""
    _, image = built(chip, kind)
    plain = image_of(square(2, controller=chip), kind)
    for trace in (bytes([7, 5, MEDIA, 3, 16, 0, 1]), bytes([0x05, 0x0C, 0x09, 0x01, 0xA1, 0x01])):
        assert trace in image.flash and trace not in plain.flash
    assert plain.ram_used < image.ram_used


def test_a_host_finds_a_boot_keyboard_and_an_interface_for_media_keys(desk: Desk) -> None:
    """USB 2.0 tables 9-10, 9-12 and 9-13, HID 1.11 section 6.2.1."""
    data, parts = desk.descriptors.configuration, []
    while data:
        parts.append(data[: data[0]])
        data = data[data[0] :]
    configuration, _, _, _, interface, hid, endpoint = parts
    assert struct.unpack("<BBHBBBBB", configuration) == (9, 2, 59, 2, 1, 0, 0xA0, 50)
    assert struct.unpack("<BBBBBBBBB", interface) == (9, 4, 1, 0, 1, 3, 0, 0, 0)
    report = desk.host.interface_descriptor(0x22, interface=1)
    assert struct.unpack("<BBHBBBH", hid) == (9, 0x21, 0x0111, 0, 1, 0x22, len(report))
    assert desk.host.interface_descriptor(0x21, interface=1) == hid
    assert struct.unpack("<BBBBHB", endpoint) == (7, 5, MEDIA, 3, 16, 1)
    assert set(ReportDescriptor.from_bytes(list(report)).input_reports) == {1, 2}


def test_each_key_is_typed_where_it_belongs(desk: Desk) -> None:
    for key, down, up in (
        ("K01", VOLUME_UP, NO_CONSUMER_KEY),
        ("K10", CALCULATOR, NO_CONSUMER_KEY),
        ("K11", SLEEP, NO_SYSTEM_KEY),
    ):
        desk.chip.close_key(key)
        assert desk.host.poll_both(3) == ([], [down])
        desk.chip.open_key(key)
        assert desk.host.poll_both(12) == ([], [up])
    desk.chip.close_key("K00")
    assert desk.host.poll_both(3) == ([any_number(0, 0x04)], [])
    desk.chip.open_key("K00")
    assert desk.host.poll_both(12) == ([NOTHING_DOWN], [])


def test_a_host_that_never_asks_for_media_keys_gets_all_the_others(desk: Desk) -> None:
    for key in ("K01", "K10", "K11"):
        desk.chip.close_key(key)
        desk.chip.wait(70)
    desk.chip.close_key("K00")
    assert desk.host.poll(3) == [any_number(0, 0x04)]


def test_a_halt_of_one_endpoint_is_not_the_other_s(desk: Desk) -> None:
    """USB 2.0 sections 9.4.1, 9.4.5 and 9.4.9."""
    desk.chip.close_key("K01")
    assert desk.host.poll_both(3) == ([], [VOLUME_UP])
    desk.host.write(0x02, 3, 0, MEDIA)
    assert desk.host.read(0x82, 0, 0, MEDIA, 2) == b"\1\0"
    assert desk.host.read(0x82, 0, 0, 0x81, 2) == b"\0\0"
    desk.chip.open_key("K01")
    desk.chip.wait(20)
    with pytest.raises(Stall):
        desk.chip.in_(2)
    desk.host.write(0x02, 1, 0, MEDIA)
    assert desk.host.poll_both(3) == ([], [NO_CONSUMER_KEY])


def test_the_boot_protocol_is_silent_and_get_report_is_not(desk: Desk) -> None:
    """HID 1.11 sections 7.2.1 and 7.2.6."""
    desk.host.set_protocol(boot=True)
    desk.chip.close_key("K10")
    assert desk.host.poll_both(5) == ([], [])
    assert desk.host.read(0xA1, 1, 0x0101, 1, 16) == CALCULATOR
    assert desk.host.read(0xA1, 1, 0x0102, 1, 16) == NO_SYSTEM_KEY
    desk.host.set_protocol(boot=False)
    assert desk.host.poll_both(3) == ([], [CALCULATOR])


def test_a_media_key_let_go_while_the_host_slept_is_up_for_the_host_too(desk: Desk) -> None:
    desk.chip.close_key("K11")
    assert desk.host.poll_both(3) == ([], [SLEEP])
    desk.chip.suspend()
    desk.chip.wait(30)
    desk.chip.open_key("K11")
    desk.chip.wait(60)
    desk.chip.resume()
    assert desk.host.poll_both(5)[1] == [NO_SYSTEM_KEY]
