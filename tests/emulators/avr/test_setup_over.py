"""A SETUP packet that comes while the last one is still being dealt with, at any moment of it.

A host that missed the acknowledgement of a SETUP sends it again, and one that gave up sends
another. The chip takes it whatever the program is just doing (Atmel 7766, section 22.12), and the
harness lets it come at every third cycle of the whole transfer. A program that polls cannot close
the gap between its last look and what it then does, nor see what comes while it writes the bytes
of an answer: the tests say how wide these gaps are.
"""

from __future__ import annotations

import pytest

from tests.emulators.avr.conftest import Desk
from tests.emulators.usb_host import Stall

STEP = 3
LAST_LOOKS = 9 * STEP
"""Cycles between looks and what is done after them, with either compiler."""

WRITING = 18 * 4 * STEP
"""Cycles in which an answer of 18 bytes is written over whatever comes."""

GET_CONFIGURATION = bytes((0x80, 8, 0, 0, 0, 0, 1, 0))
REQUESTS = {
    "with data": (bytes((0x80, 6, 0, 1, 0, 0, 18, 0)), None),
    "without data": (bytes((0x21, 10, 0, 0, 0, 0, 0, 0)), None),
    "refused": (bytes((0x80, 6, 0, 6, 0, 0, 10, 0)), None),
    "with data to the device": (bytes((0x21, 9, 0, 2, 0, 0, 1, 0)), b"\1"),
}
WHOLE = 1500
"""Cycles in which any of them is answered, once it was taken."""


def answered_right(desk: Desk) -> bool:
    """Whether the request that is under way, GET_CONFIGURATION, gets its answer."""
    chip = desk.chip
    try:
        for _ in range(40):
            chip.wait(0.05)
            packet = chip.in_(0)
            if packet is not None:
                chip.wait(0.1)
                return packet == b"\1" and chip.out(0, b"")
    except Stall:
        pass
    return False


def begin(desk: Desk, request: bytes, data: bytes | None) -> None:
    """Send a request's SETUP, and its data if it has any; the program has just taken the SETUP."""
    desk.chip.setup_over(request)
    while desk.chip.setup_waits:
        desk.chip.run_exactly(1)
    if data is not None:
        assert desk.chip.out(0, data)


def test_of_a_packet_that_nothing_comes_over_only_its_bytes_are_read(desk: Desk) -> None:
    for request, data in REQUESTS.values():
        begin(desk, request, data)
        desk.chip.wait(1)
    assert desk.chip.overread == 0


@pytest.mark.few(8)
@pytest.mark.parametrize("first", REQUESTS)
def test_a_setup_packet_over_another_is_answered_itself(desk: Desk, first: str) -> None:
    chip = desk.chip
    wrong, spoiled = 0, 0
    for cycles in range(0, WHOLE, STEP):
        before, misgiven = chip.spoiled, chip.misgiven
        begin(desk, *REQUESTS[first])
        chip.run_exactly(cycles)
        chip.setup_over(GET_CONFIGURATION)
        right = answered_right(desk)
        if chip.spoiled != before:
            spoiled += STEP
        elif not right or chip.misgiven != misgiven:
            wrong += STEP
        desk.host.descriptor(1, length=18)  # takes back what was answered wrongly
    assert wrong <= LAST_LOOKS
    assert spoiled <= (WRITING if first == "with data" else 0)
