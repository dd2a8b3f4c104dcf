"""The pointer on the emulated chips: its report, the curve by the chip's clock, boot protocol."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from hidtools.hid import ReportDescriptor

from matrixgen.boards import Mounted
from matrixgen.families import CompilerKind
from matrixgen.model import Media
from matrixgen.model.speeds import POINTER_SPEED
from matrixgen.toolchain import Image
from tests.emulators.at_a_host import at_a_host
from tests.emulators.avr.board import AvrBoard
from tests.emulators.images import image_of
from tests.emulators.keyboards import square, with_media_keys
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.usb_host import UsbHost
from tests.firmware.pads import pointer_key
from tests.firmware.test_pointer import distance, moved
from tests.reports import any_number

pytestmark = pytest.mark.chips_in_turn
CHIPS = ("atmega32u4", "at90usb162", "rp2040")
COMPILERS: tuple[CompilerKind, ...] = ("gcc", "clang")
KEYS = {
    "K01": pointer_key("PointerRight"),
    "K10": pointer_key("Button1"),
    "K11": Media(0x0C, 0xE9),
}
HELD_MS = 150
LATE_MS = 20
"""What a chip may be late by, its scan, its debounce time and the host's question together."""


@dataclass
class Desk:
    chip: AvrBoard | Rp2040Board
    host: UsbHost


@functools.cache
def built(chip: str, kind: CompilerKind) -> tuple[Mounted, Image]:
    mounted = with_media_keys(square(2, controller=chip), KEYS)
    return mounted, image_of(mounted, kind)


@pytest.fixture(params=[(chip, kind) for chip in CHIPS for kind in COMPILERS], ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    chip, kind = request.param
    mounted, image = built(chip, kind)
    with at_a_host(image, mounted) as (board, host, _):
        yield Desk(board, host)


def test_a_chip_moves_along_the_curve_and_tells_of_buttons_meanwhile(desk: Desk) -> None:
    report = desk.host.interface_descriptor(0x22, interface=1)
    assert set(ReportDescriptor.from_bytes(list(report)).input_reports) == {1, 4}
    desk.chip.close_key("K01")
    _, first = desk.host.poll_both(HELD_MS)
    steps = sum(moved(one)[0] for one in first)
    assert distance(POINTER_SPEED, HELD_MS - LATE_MS) <= steps
    assert steps <= 1 + distance(POINTER_SPEED, HELD_MS + LATE_MS)
    assert {one[1] for one in first} == {0}
    desk.chip.close_key("K10")
    desk.chip.close_key("K00")
    typed, told = desk.host.poll_both(12)
    assert typed == [any_number(0, 0x04)]
    assert told[-1][1] == 1 and all(moved(one)[1:] == (0, 0, 0) for one in told)
    desk.chip.open_key("K01")
    desk.host.poll_both(15)
    assert desk.host.poll_both(10) == ([], []), "nothing moves any more"
    assert desk.host.read(0xA1, 1, 0x0104, 1, 16) == b"\4\1\0\0\0\0"
    desk.chip.open_key("K10")
    assert desk.host.poll_both(12) == ([], [b"\4\0\0\0\0\0"])


def test_the_boot_protocol_has_no_pointer(desk: Desk) -> None:
    desk.host.set_protocol(boot=True)
    desk.chip.close_key("K01")
    desk.chip.close_key("K10")
    assert desk.host.poll_both(30)[1] == []
    desk.chip.open_key("K01")
    desk.host.poll_both(15)
    desk.host.set_protocol(boot=False)
    assert desk.host.poll_both(5)[1] == [b"\4\1\0\0\0\0"]
