"""Every key types on matrices of every width, up to all the pins of each emulated chip.

A set of sensed lines is a number of 8, 16 or 32 bits, and on an AVR `int` has 16: what is true of a
narrow matrix may be wrong of a wide one. The widths are those about the ends of these numbers; the
chips and their pins are the profiles'. Emulated, not silicon.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count

import pytest

from matrixgen.boards import Mounted, Profile, builtin_profile
from matrixgen.families import CompilerKind
from matrixgen.model import AXES, Axis, matrix_of
from matrixgen.toolchain import Image
from tests.amounts import IS_LONG, in_turn
from tests.emulators.avr.board import AvrBoard
from tests.emulators.avr.board import board as avr_board
from tests.emulators.images import image_of
from tests.emulators.keyboards import rectangle
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.usb_host import UsbHost
from tests.reports import BOOT_BYTES, FIRST_USAGE, NOTHING_DOWN, PLAIN_USAGES

WIDTHS = (8, 9, 16, 17, 24)
COMPILERS: tuple[CompilerKind, CompilerKind] = ("gcc", "clang")
TURNS_A_MS = 1.5
"""How many turns of its main loop the RP2040's core is given each millisecond, to save time."""


def profile_of(chip: str) -> Profile:
    profile = builtin_profile(chip)
    assert profile is not None
    return profile


CHIPS = {chip: profile_of(chip) for chip in ("at90usb162", "atmega32u4", "rp2040")}
"""The chips that there are emulators of, by the profiles with the most pins: the bare ones."""

MATRICES = [
    (name, width, drive)
    for name, profile in CHIPS.items()
    for number, width in enumerate(w for w in WIDTHS if w < len(profile.usable_pins))
    for drive in (AXES if number % 2 else AXES[::-1])
    if IS_LONG or drive == "row" or number in (0, 3)
    if IS_LONG or name != "at90usb162" or number in (0, 3)
]
"""So many columns by as many rows as there are pins left, sensed and driven.

Which are driven first changes with each width, so that compilers that take turns meet both.
"""
CASES = [
    pytest.param(*matrix, kind, id=f"{matrix[0]}-{matrix[1]}-{matrix[2]}s-driven-{kind}")
    for matrix, kind in in_turn(MATRICES, COMPILERS)
]


def test_each_width_is_tried_as_sensed_lines() -> None:
    """On an AVR too, where 17 and 24 lines take more bits than an `int` has."""
    tried = {
        (profile.port, width)
        for profile in CHIPS.values()
        for width in WIDTHS
        if width < len(profile.usable_pins)
    }
    assert tried == {(port, width) for port in ("avr", "rp2040") for width in WIDTHS}


@contextmanager
def plugged_in(image: Image, mounted: Mounted) -> Iterator[tuple[AvrBoard | Rp2040Board, UsbHost]]:
    """Yield a running board, and the host that it is enumerated at."""
    solder = avr_board if mounted.profile.port == "avr" else rp2040_board
    with solder(image, mounted) as chip:
        if isinstance(chip, Rp2040Board):
            _, turn = chip.scan_cycles(mounted)
            chip.share = min(1, TURNS_A_MS * turn / chip.cycles_per_ms)
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        yield chip, host


def down_after(host: UsbHost) -> int:
    """Return the bits of the usages that the next report says are down; 0 if there is none."""
    for _ in range(3):
        for report in host.poll():
            return int.from_bytes(report[BOOT_BYTES:], "little")
    return 0


def test_each_two_of_chip_width_axis_and_compiler_meet() -> None:
    cases = [case.values for case in CASES]
    for one, other in ((0, 3), (1, 3), (2, 3)):
        met = {(case[one], case[other]) for case in cases}
        assert met == {(case[one], kind) for case in cases for kind in COMPILERS}


@pytest.mark.parametrize(("name", "width", "drive", "kind"), CASES)
def test_every_key_types_itself(name: str, width: int, drive: Axis, kind: CompilerKind) -> None:
    """A row is closed key by key, and opened at once; key n has usage 4 + n."""
    pins = [pin.name for pin in CHIPS[name].usable_pins]
    mounted, rows = rectangle(name, pins[width:], pins[:width], drive)
    senses = len(matrix_of(mounted.keyboard).senses)
    assert senses == (width if drive == "row" else len(pins) - width)
    usages, silent = count(), []
    with plugged_in(image_of(mounted, kind), mounted) as (chip, host):
        for row in rows:
            down = 0
            for key in row:
                chip.close_key(key)
                down |= 1 << FIRST_USAGE + next(usages) % PLAIN_USAGES
                if down_after(host) != down:
                    silent.append(key)
            for key in row:
                chip.open_key(key)
            assert silent == [] and host.poll(len(row) + 16)[-1:] == [NOTHING_DOWN]
