"""What a host reads from the emulated chip when the keyboard is plugged in."""

from __future__ import annotations

import struct

from hidtools.hid import ReportDescriptor

from tests.emulators.avr.conftest import Desk
from tests.emulators.usb_host import string_of
from tests.reports import REPORT_BYTES, any_number


def test_the_device_descriptor_names_the_keyboard(desk: Desk) -> None:
    fields = struct.unpack("<BBHBBBBHHHBBBB", desk.descriptors.device)  # USB 2.0 table 9-8
    assert fields == (18, 1, 0x0200, 0, 0, 0, 64, 0x1209, 0x0001, 0x0100, 1, 2, 0, 1)


def test_the_configuration_is_one_boot_keyboard_that_can_wake_the_host(desk: Desk) -> None:
    data = desk.descriptors.configuration
    parts = []
    while data:
        parts.append(data[: data[0]])
        data = data[data[0] :]
    configuration, interface, hid, endpoint = parts
    assert struct.unpack("<BBHBBBBB", configuration) == (9, 2, 34, 1, 1, 0, 0xA0, 50)
    assert struct.unpack("<BBBBBBBBB", interface) == (9, 4, 0, 0, 1, 3, 1, 1, 0)
    # HID 1.11 section 6.2.1
    assert struct.unpack("<BBHBBBH", hid) == (9, 0x21, 0x0111, 0, 1, 0x22, len(report(desk)))
    assert struct.unpack("<BBBBHB", endpoint) == (7, 5, 0x81, 3, 64, 1)


def test_the_chip_s_endpoint_is_of_the_type_that_the_descriptor_says(desk: Desk) -> None:
    """USB 2.0 table 9-13: what a host asks for and when depends on it."""
    address, attributes = desk.descriptors.configuration[-5:-3]
    assert desk.chip.type_of(address) == attributes & 3


def report(desk: Desk) -> bytes:
    return desk.descriptors.report


def test_the_strings_are_the_makers_and_the_products(desk: Desk) -> None:
    assert [string_of(string) for string in desk.descriptors.strings] == ["A test", "Square 2"]


def test_hid_tools_reads_232_keys_and_five_lamps_in_the_report_descriptor(desk: Desk) -> None:
    parsed = ReportDescriptor.from_bytes(list(report(desk)))
    (keys,) = parsed.input_reports.values()
    (lamps,) = parsed.output_reports.values()
    assert not parsed.feature_reports
    assert (keys.bitsize, lamps.bitsize) == (REPORT_BYTES * 8, 8)
    told = [field for field in keys if not field.is_const]
    usages = [field.usage & 0xFFFF for field in told]
    assert usages == [*range(0xE0, 0xE8), *range(0xE0)]
    assert {field.usage >> 16 for field in told} == {0x07}
    assert {(field.logical_min, field.logical_max, field.size) for field in told} == {(0, 1, 1)}
    assert sum(field.size * field.count for field in keys if field.is_const) == 56
    assert [field.usage for field in lamps if not field.is_const] == [
        0x08 << 16 | lamp for lamp in range(1, 6)
    ]


def test_the_chip_answers_to_the_address_it_was_given(desk: Desk) -> None:
    assert desk.chip.address == 5


def test_a_key_reaches_the_host_and_leaves_it(desk: Desk) -> None:
    desk.chip.close_key("K01")  # usage 0x05
    assert desk.host.poll(3) == [any_number_report(0x05)]
    desk.chip.open_key("K01")
    assert desk.host.poll(12) == [any_number_report()]


def test_a_release_that_a_bus_reset_threw_away_is_told_afterwards(desk: Desk) -> None:
    """A host that only resets the port, as after a bad resume, still holds the key down."""
    desk.chip.close_key("K01")
    assert desk.host.poll(3) == [any_number_report(0x05)]
    desk.chip.open_key("K01")
    desk.chip.wait(20)  # nobody polls: the report waits
    desk.host.enumerate()
    desk.host.set_idle(0)
    assert desk.host.poll(3) == [any_number_report()]


def test_a_release_that_a_cleared_halt_threw_away_is_told_afterwards(desk: Desk) -> None:
    desk.chip.close_key("K01")
    assert desk.host.poll(3) == [any_number_report(0x05)]
    desk.chip.open_key("K01")
    desk.chip.wait(20)
    desk.host.write(0x02, 1, 0, 0x81)
    assert desk.host.poll(3) == [any_number_report()]


def any_number_report(*usages: int) -> bytes:
    return any_number(0, *usages)


def test_a_key_held_while_the_host_enumerates_is_reported_afterwards(desk: Desk) -> None:
    desk.chip.close_key("K10")
    desk.host.enumerate()
    assert desk.host.poll(3)[0] == any_number_report(0x06)


def test_the_report_descriptor_is_cut_where_the_host_wants_it_cut(desk: Desk) -> None:
    """USB 2.0 section 9.4.3: the device returns the initial bytes."""
    whole = report(desk)
    for length in (1, 8, 31, 32, 33, len(whole), len(whole) + 1, 255, 256, 4096):
        assert desk.host.interface_descriptor(0x22, length) == whole[:length]


def test_a_transfer_may_be_ended_early_by_the_host(desk: Desk) -> None:
    """USB 2.0 section 8.5.3.2: the status stage may come before all data have been sent."""
    desk.chip.setup(struct.pack("<BBHHH", 0x81, 6, 0x2200, 0, 255))
    desk.chip.wait(1)
    assert desk.chip.in_(0) == report(desk)
    assert desk.chip.out(0, b"")
    desk.chip.wait(1)
    assert desk.host.descriptor(1, length=18) == desk.descriptors.device


def test_a_setup_packet_ends_whatever_was_under_way(desk: Desk) -> None:
    """USB 2.0 section 8.5.3: a new SETUP always starts a new transfer."""
    desk.chip.setup(struct.pack("<BBHHH", 0x81, 6, 0x2200, 0, 255))
    desk.chip.wait(1)
    assert desk.host.descriptor(1, length=18) == desk.descriptors.device
    desk.chip.setup(struct.pack("<BBHHH", 0x21, 9, 0x0200, 0, 1))  # its data never come
    desk.chip.wait(1)
    assert desk.host.descriptor(1, length=18) == desk.descriptors.device


def test_an_address_is_not_taken_over_if_the_host_never_ended_the_request(desk: Desk) -> None:
    desk.chip.setup(struct.pack("<BBHHH", 0x00, 9, 0, 0, 0))
    desk.chip.wait(1)
    desk.chip.in_(0)
    desk.chip.setup(struct.pack("<BBHHH", 0x00, 5, 9, 0, 0))
    desk.host.write(0x00, 9, 1, 0)
    assert desk.chip.address == 5
