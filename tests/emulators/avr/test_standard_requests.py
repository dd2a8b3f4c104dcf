"""Each standard request of USB 2.0 section 9.4, answered or refused by the emulated chip."""

from __future__ import annotations

import pytest

from tests.emulators.avr.conftest import Desk
from tests.emulators.usb_host import Stall
from tests.reports import any_number

TO_DEVICE, TO_INTERFACE, TO_ENDPOINT = 0x00, 0x01, 0x02
OF_DEVICE, OF_INTERFACE, OF_ENDPOINT = 0x80, 0x81, 0x82
GET_STATUS, CLEAR_FEATURE, SET_FEATURE, SET_ADDRESS = 0, 1, 3, 5
GET_DESCRIPTOR, SET_DESCRIPTOR, GET_CONFIGURATION, SET_CONFIGURATION = 6, 7, 8, 9
GET_INTERFACE, SET_INTERFACE, SYNCH_FRAME = 10, 11, 12
ENDPOINT_HALT, REMOTE_WAKEUP, TEST_MODE = 0, 1, 2
KEYBOARD = 0x81
"""The interrupt endpoint's address."""

# section, type, request, value, index, length: what a configured device must refuse
REFUSED = [
    ("9.4.1", TO_DEVICE, CLEAR_FEATURE, TEST_MODE, 0, 0),
    ("9.4.1", TO_ENDPOINT, CLEAR_FEATURE, ENDPOINT_HALT, 0x82, 0),
    ("9.4.1", TO_ENDPOINT, CLEAR_FEATURE, REMOTE_WAKEUP, KEYBOARD, 0),
    ("9.4.1", TO_INTERFACE, CLEAR_FEATURE, 0, 0, 0),
    ("9.4.3", OF_DEVICE, GET_DESCRIPTOR, 0x0101, 0, 18),
    ("9.4.3", OF_DEVICE, GET_DESCRIPTOR, 0x0201, 0, 9),
    ("9.4.3", OF_DEVICE, GET_DESCRIPTOR, 0x0303, 0x0409, 255),
    ("9.4.3", OF_DEVICE, GET_DESCRIPTOR, 0x0400, 0, 9),
    ("9.4.3", OF_DEVICE, GET_DESCRIPTOR, 0x0500, 0, 7),
    ("9.6.2, no device qualifier: full speed only", OF_DEVICE, GET_DESCRIPTOR, 0x0600, 0, 10),
    ("9.6.4, no other speed", OF_DEVICE, GET_DESCRIPTOR, 0x0700, 0, 9),
    ("HID 7.1.1, of the interface only", OF_DEVICE, GET_DESCRIPTOR, 0x2200, 0, 255),
    ("HID 7.1.1, no such interface", OF_INTERFACE, GET_DESCRIPTOR, 0x2200, 1, 255),
    ("HID 7.1.1, no physical descriptor", OF_INTERFACE, GET_DESCRIPTOR, 0x2300, 0, 255),
    ("9.4.4", OF_INTERFACE, GET_INTERFACE, 0, 1, 1),
    ("9.4.5", OF_INTERFACE, GET_STATUS, 0, 1, 2),
    ("9.4.5", OF_ENDPOINT, GET_STATUS, 0, 0x01, 2),
    ("9.4.5", OF_ENDPOINT, GET_STATUS, 0, 0x82, 2),
    ("9.4.7", TO_DEVICE, SET_CONFIGURATION, 2, 0, 0),
    ("9.4.7, no data", TO_DEVICE, SET_CONFIGURATION, 0, 0, 1),
    ("9.4.8, optional", TO_DEVICE, SET_DESCRIPTOR, 0x0100, 0, 18),
    ("9.4.9", TO_DEVICE, SET_FEATURE, TEST_MODE, 0, 0),
    ("9.4.9", TO_ENDPOINT, SET_FEATURE, ENDPOINT_HALT, 0x82, 0),
    ("9.4.9, no such feature", TO_DEVICE, SET_FEATURE, 7, 0, 0),
    ("9.4.10", TO_INTERFACE, SET_INTERFACE, 1, 0, 0),
    ("9.4.10", TO_INTERFACE, SET_INTERFACE, 0, 1, 0),
    ("9.4.11, isochronous endpoints only", OF_ENDPOINT, SYNCH_FRAME, 0, KEYBOARD, 2),
    ("9.4, no such request", TO_DEVICE, 2, 0, 0, 0),
    ("9.4, no such request", OF_DEVICE, 99, 0, 0, 1),
    ("9.3.1, a vendor's request", 0xC0, 1, 0, 0, 8),
    ("9.3.1, a vendor's request", 0x40, 1, 0, 0, 0),
]


@pytest.mark.parametrize("case", REFUSED, ids=lambda case: f"{case[0]}-{case[2]}-{case[3]:x}")
def test_what_the_device_cannot_do_is_answered_by_stall(
    desk: Desk, case: tuple[str, int, int, int, int, int]
) -> None:
    assert desk.host.refuses(*case[1:])
    assert desk.host.read(OF_DEVICE, GET_CONFIGURATION, 0, 0, 1) == b"\1", "it must go on working"


# section, type, request, value, index, length: what needs a configured device
NEEDS_CONFIGURATION = [
    ("9.4.1", TO_ENDPOINT, CLEAR_FEATURE, ENDPOINT_HALT, KEYBOARD, 0),
    ("9.4.4", OF_INTERFACE, GET_INTERFACE, 0, 0, 1),
    ("9.4.5", OF_INTERFACE, GET_STATUS, 0, 0, 2),
    ("9.4.5", OF_ENDPOINT, GET_STATUS, 0, KEYBOARD, 2),
    ("9.4.9", TO_ENDPOINT, SET_FEATURE, ENDPOINT_HALT, KEYBOARD, 0),
    ("9.4.10", TO_INTERFACE, SET_INTERFACE, 0, 0, 0),
]


def test_an_unconfigured_device_has_no_interface_and_no_endpoint(desk: Desk) -> None:
    desk.host.write(TO_DEVICE, SET_CONFIGURATION, 0, 0)
    assert desk.host.read(OF_DEVICE, GET_CONFIGURATION, 0, 0, 1) == b"\0"
    for section, *request in NEEDS_CONFIGURATION:
        assert desk.host.refuses(*request), section
    desk.host.write(TO_DEVICE, SET_CONFIGURATION, 1, 0)
    for section, *request in NEEDS_CONFIGURATION:
        assert not desk.host.refuses(*request), section


def test_an_unconfigured_device_still_tells_of_itself(desk: Desk) -> None:
    desk.host.write(TO_DEVICE, SET_CONFIGURATION, 0, 0)
    assert desk.host.descriptor(1, length=18) == desk.descriptors.device
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 2) == b"\0\0"
    assert desk.host.read(OF_ENDPOINT, GET_STATUS, 0, 0, 2) == b"\0\0"


def test_get_configuration_tells_the_one_that_is_set(desk: Desk) -> None:
    """Section 9.4.2."""
    assert desk.host.read(OF_DEVICE, GET_CONFIGURATION, 0, 0, 1) == b"\1"


def test_get_interface_tells_setting_0(desk: Desk) -> None:
    """Section 9.4.4."""
    assert desk.host.read(OF_INTERFACE, GET_INTERFACE, 0, 0, 1) == b"\0"
    desk.host.write(TO_INTERFACE, SET_INTERFACE, 0, 0)


def test_get_status_tells_whether_the_host_allows_remote_wake_up(desk: Desk) -> None:
    """Sections 9.4.5, 9.4.1 and 9.4.9; a bus-powered device."""
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 2) == b"\0\0"
    desk.host.write(TO_DEVICE, SET_FEATURE, REMOTE_WAKEUP, 0)
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 2) == b"\2\0"
    desk.host.write(TO_DEVICE, CLEAR_FEATURE, REMOTE_WAKEUP, 0)
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 2) == b"\0\0"


def test_an_interface_and_the_control_endpoint_have_nothing_to_tell(desk: Desk) -> None:
    """Section 9.4.5, figures 9-5 and 9-6."""
    assert desk.host.read(OF_INTERFACE, GET_STATUS, 0, 0, 2) == b"\0\0"
    for endpoint in (0x00, 0x80):
        assert desk.host.read(OF_ENDPOINT, GET_STATUS, 0, endpoint, 2) == b"\0\0"


def test_a_halted_endpoint_answers_stall_until_it_is_cleared(desk: Desk) -> None:
    """Sections 9.4.5 and 9.4.9."""
    desk.host.write(TO_ENDPOINT, SET_FEATURE, ENDPOINT_HALT, KEYBOARD)
    assert desk.host.read(OF_ENDPOINT, GET_STATUS, 0, KEYBOARD, 2) == b"\1\0"
    assert endpoint_stalls(desk)
    desk.host.write(TO_ENDPOINT, CLEAR_FEATURE, ENDPOINT_HALT, KEYBOARD)
    assert desk.host.read(OF_ENDPOINT, GET_STATUS, 0, KEYBOARD, 2) == b"\0\0"
    assert not endpoint_stalls(desk)


def test_a_key_pressed_while_the_endpoint_is_halted_is_told_afterwards(desk: Desk) -> None:
    desk.host.write(TO_ENDPOINT, SET_FEATURE, ENDPOINT_HALT, KEYBOARD)
    desk.chip.close_key("K00")
    desk.chip.wait(20)
    assert endpoint_stalls(desk)
    desk.host.write(TO_ENDPOINT, CLEAR_FEATURE, ENDPOINT_HALT, KEYBOARD)
    assert desk.host.poll(3) == [any_number(0, 0x04)]


@pytest.mark.parametrize(
    "again", [(TO_DEVICE, SET_CONFIGURATION, 1), (TO_INTERFACE, SET_INTERFACE, 0)]
)
def test_setting_a_configuration_or_an_interface_clears_a_halt(
    desk: Desk, again: tuple[int, int, int]
) -> None:
    """Section 9.1.1.5."""
    desk.host.write(TO_ENDPOINT, SET_FEATURE, ENDPOINT_HALT, KEYBOARD)
    desk.host.write(*again, 0)
    assert desk.host.read(OF_ENDPOINT, GET_STATUS, 0, KEYBOARD, 2) == b"\0\0"
    assert not endpoint_stalls(desk)


def endpoint_stalls(desk: Desk) -> bool:
    desk.chip.wait(1)
    try:
        desk.chip.in_(1)
    except Stall:
        return True
    return False


def test_a_bus_reset_takes_back_address_configuration_and_permission(desk: Desk) -> None:
    """Section 9.1.1.3."""
    desk.host.write(TO_DEVICE, SET_FEATURE, REMOTE_WAKEUP, 0)
    desk.chip.reset()
    assert desk.host.read(OF_DEVICE, GET_CONFIGURATION, 0, 0, 1) == b"\0"
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 2) == b"\0\0"


def test_a_request_for_no_data_ends_with_the_status_stage(desk: Desk) -> None:
    """Section 8.5.3.1: without a data stage, the status stage is a packet from the device."""
    assert desk.host.read(OF_DEVICE, GET_STATUS, 0, 0, 0) == b""
    assert desk.host.read(OF_DEVICE, GET_DESCRIPTOR, 0x0200, 0, 0) == b""
    assert desk.host.descriptor(1, length=18) == desk.descriptors.device


def test_every_length_of_a_string_ends_so_that_the_host_knows(desk: Desk) -> None:
    """Section 8.5.3.2: a full last packet, shorter than asked for, is followed by an empty one."""
    whole = desk.host.descriptor(3, 2)
    for length in range(1, len(whole) + 3):
        assert desk.host.descriptor(3, 2, length) == whole[:length]
