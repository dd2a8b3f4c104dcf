"""The requests of the HID class, HID 1.11 section 7.2, on the emulated chip."""

from __future__ import annotations

import pytest

from tests.emulators.avr.conftest import Desk
from tests.emulators.avr.test_enumeration import any_number_report
from tests.reports import REPORT_BYTES

OF_INTERFACE, TO_INTERFACE = 0xA1, 0x21
GET_REPORT, GET_IDLE, GET_PROTOCOL = 1, 2, 3
SET_REPORT, SET_IDLE, SET_PROTOCOL = 9, 10, 11
INPUT, OUTPUT, FEATURE = 0x100, 0x200, 0x300

# section, type, request, value, index, length
REFUSED = [
    ("7.2.1, no feature report", OF_INTERFACE, GET_REPORT, FEATURE, 0, 1),
    ("7.2.1, no report number", OF_INTERFACE, GET_REPORT, INPUT | 1, 0, REPORT_BYTES),
    ("7.2.1, no such interface", OF_INTERFACE, GET_REPORT, INPUT, 1, REPORT_BYTES),
    ("7.2.1, no such kind", OF_INTERFACE, GET_REPORT, 0, 0, REPORT_BYTES),
    ("7.2.2, no feature report", TO_INTERFACE, SET_REPORT, FEATURE, 0, 1),
    ("7.2.2, no data", TO_INTERFACE, SET_REPORT, OUTPUT, 0, 0),
    ("7.2.3, no report number", OF_INTERFACE, GET_IDLE, 1, 0, 1),
    ("7.2.4, no such interface", TO_INTERFACE, SET_IDLE, 0, 1, 0),
    ("7.2.4, no data", TO_INTERFACE, SET_IDLE, 0, 0, 1),
    ("7.2.6, no such protocol", TO_INTERFACE, SET_PROTOCOL, 2, 0, 0),
    ("7.2.6, no such protocol", TO_INTERFACE, SET_PROTOCOL, 0x100, 0, 0),
    ("7.2.6, no data", TO_INTERFACE, SET_PROTOCOL, 0, 0, 1),
    ("7.2, no such request", OF_INTERFACE, 4, 0, 0, 1),
    ("7.2, no such request", TO_INTERFACE, 12, 0, 0, 0),
]


@pytest.mark.parametrize("case", REFUSED, ids=lambda case: f"{case[0]}-{case[2]}")
def test_what_the_keyboard_cannot_do_is_answered_by_stall(
    desk: Desk, case: tuple[str, int, int, int, int, int]
) -> None:
    assert desk.host.refuses(*case[1:])
    assert desk.host.read(OF_INTERFACE, GET_PROTOCOL, 0, 0, 1) == b"\1", "it must go on working"


def test_an_unconfigured_keyboard_has_no_hid_requests(desk: Desk) -> None:
    desk.host.write(0x00, 9, 0, 0)
    assert desk.host.refuses(OF_INTERFACE, GET_PROTOCOL, 0, 0, 1)
    assert desk.host.refuses(TO_INTERFACE, SET_IDLE, 0, 0, 0)


def test_get_report_answers_with_what_is_down_now(desk: Desk) -> None:
    """Section 7.2.1; mandatory for every HID device."""
    desk.chip.close_key("K11")
    desk.chip.wait(2)
    report = desk.host.read(OF_INTERFACE, GET_REPORT, INPUT, 0, REPORT_BYTES)
    assert report == any_number_report(0x07)
    desk.host.set_protocol(boot=True)
    assert (
        desk.host.read(OF_INTERFACE, GET_REPORT, INPUT, 0, REPORT_BYTES).hex() == "0000070000000000"
    )


def test_the_host_sets_the_lamps_and_reads_them_back(desk: Desk) -> None:
    for lamps in (0x01, 0x1F, 0x00):
        desk.host.set_leds(lamps)
        assert desk.host.read(OF_INTERFACE, GET_REPORT, OUTPUT, 0, 1) == bytes([lamps])
    desk.host.set_leds(0xFF)  # the three constant bits are nobody's
    assert desk.host.read(OF_INTERFACE, GET_REPORT, OUTPUT, 0, 1) == b"\x1f"


@pytest.mark.parametrize("length", [1, 2, 8, 32])
@pytest.mark.parametrize("number", [0, 1])
def test_lamps_may_come_with_padding_or_a_report_number(
    desk: Desk, length: int, number: int
) -> None:
    """From memory: hosts send them so. The first byte counts."""
    packet = bytes([0x02]).ljust(length, b"\xff")
    desk.host.write(TO_INTERFACE, SET_REPORT, OUTPUT | number, 0, packet)
    assert desk.host.read(OF_INTERFACE, GET_REPORT, OUTPUT, 0, 1) == b"\x02"


def test_the_idle_time_may_be_set_with_a_report_number(desk: Desk) -> None:
    """From memory: hosts do."""
    desk.host.write(TO_INTERFACE, SET_IDLE, 0x0A01, 0)
    assert desk.host.read(OF_INTERFACE, GET_IDLE, 0, 0, 1) == b"\x0a"


def test_an_input_report_from_the_host_changes_nothing(desk: Desk) -> None:
    """Section 7.2.2: a device may ignore one as meaningless."""
    desk.host.write(TO_INTERFACE, SET_REPORT, INPUT, 0, b"\xff" * REPORT_BYTES)
    assert desk.host.read(OF_INTERFACE, GET_REPORT, INPUT, 0, REPORT_BYTES) == any_number_report()
    assert desk.host.poll(5) == []


def test_the_protocol_is_report_until_the_host_asks_for_boot(desk: Desk) -> None:
    """Sections 7.2.5 and 7.2.6: the report protocol after every reset."""
    assert desk.host.read(OF_INTERFACE, GET_PROTOCOL, 0, 0, 1) == b"\1"
    desk.host.set_protocol(boot=True)
    assert desk.host.read(OF_INTERFACE, GET_PROTOCOL, 0, 0, 1) == b"\0"
    desk.host.enumerate()
    assert desk.host.read(OF_INTERFACE, GET_PROTOCOL, 0, 0, 1) == b"\1"


def test_the_boot_report_is_the_eight_bytes_of_appendix_b(desk: Desk) -> None:
    desk.host.set_protocol(boot=True)
    desk.chip.close_key("K00")
    desk.chip.wait(2)
    desk.chip.close_key("K11")
    reports = desk.host.poll(4)
    assert [report.hex() for report in reports] == ["0000040000000000", "0000040700000000"]


def test_the_idle_time_is_500_ms_after_a_reset(desk: Desk) -> None:
    """Section 7.2.4: recommended for keyboards; in units of 4 ms."""
    desk.host.enumerate()
    assert desk.host.read(OF_INTERFACE, GET_IDLE, 0, 0, 1) == bytes([125])
    reports = desk.host.poll(1250)
    assert reports == [any_number_report()] * 2


@pytest.mark.parametrize("idle_ms", [4, 40, 1020])
def test_an_unchanged_report_is_repeated_after_the_idle_time(desk: Desk, idle_ms: int) -> None:
    """Section 7.2.4: within 10 % and 2 ms."""
    desk.host.set_idle(idle_ms)
    desk.chip.close_key("K00")
    desk.host.poll(3)
    gaps = []
    for _ in range(3):
        gap = 0
        while not desk.host.poll(1):
            gap += 1
            assert gap < 2000
        gaps.append(gap + 1)
    assert all(abs(gap - idle_ms) <= idle_ms * 0.1 + 2 for gap in gaps[1:]), gaps


def test_an_idle_time_of_0_means_no_report_without_a_change(desk: Desk) -> None:
    desk.host.set_idle(0)
    assert desk.host.read(OF_INTERFACE, GET_IDLE, 0, 0, 1) == b"\0"
    assert desk.host.poll(1500) == []
