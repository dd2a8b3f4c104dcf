"""Knobs on the emulated chips: contacts that are closed to ground, and the reports that follow.

The shaft and how long its contacts bounce: `tests/firmware/turning.py`, with its sources.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

import pytest

from matrixgen.boards import Mounted
from matrixgen.circuit.knob_times import KnobTimes
from matrixgen.circuit.settling import Settling
from matrixgen.circuit.timing import total
from matrixgen.families import CompilerKind
from matrixgen.model import matrix_of
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, pin_number
from tests.emulators.avr.board import board as avr_board
from tests.emulators.images import image_of
from tests.emulators.keyboards import pad_on
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.usb_host import UsbHost
from tests.firmware.turning import Shaft
from tests.reports import any_number

pytestmark = pytest.mark.chips_in_turn

CHIPS = ("atmega32u4", "at90usb162", "rp2040")
COMPILERS: tuple[CompilerKind, ...] = ("gcc", "clang")
STATES = {"volume": 4, "jog": 2, "dial": 8}
LEFT, RIGHT, A = 0x50, 0x4F, 0x04
QUIET = (b"\x01\x00", any_number(0))
UP_AND_DOWN = {b"\x01\x01": 1, b"\x01\x02": -1}

PAD = """
keyboard "Knob pad"
  controller CHIP

plate
  line A

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0 on P0  A
  column c0 on P1  A
  knob jog    on P2 P3 with 2 states a step
  knob volume on P4 P5
  knob dial   on P6 P7 with 8 states a step

layer base
  volume.left = VolumeDown  volume.right = VolumeUp
  jog.left    = LeftArrow   jog.right    = RightArrow
  dial.left   = LeftArrow   dial.right   = RightArrow
"""


@dataclass
class Desk:
    chip: AvrBoard | Rp2040Board
    host: UsbHost
    pins: dict[str, tuple[int, int]]
    """Of A and B of each knob."""

    def set(self, knob: str, contacts: int) -> None:
        for contact, pin in enumerate(self.pins[knob]):
            self.chip.ground(pin, bool(contacts >> contact & 1))

    def play(self, knob: str, shaft: Shaft) -> tuple[list[bytes], list[bytes]]:
        """Move the contacts to the microsecond; poll each millisecond, and until all is told."""
        found: tuple[list[bytes], list[bytes]] = ([], [])
        moves, now_us, next_ms = [*shaft.moves], 0.0, 1000.0
        while moves or now_us < shaft.at_us + 60_000:
            at_us = min(moves[0].at_us if moves else next_ms, next_ms)
            self.chip.wait((at_us - now_us) / 1000)
            now_us = at_us
            if moves and moves[0].at_us <= now_us:
                self.set(knob, moves.pop(0).contacts)
            if now_us >= next_ms:
                next_ms += 1000
                for number, given in enumerate(found, 1):
                    given += [report] if (report := self.chip.in_(number)) is not None else []
        return found


SLOW = (
    PAD.replace("line A", "line A B C D E F G H")
    .replace("drive rows", "settle 60 us\n  drive columns")
    .replace("sense columns", "sense rows")
    .replace("toward rows", "toward columns")
    .replace("P0  A", "P0  A to H")
    .replace(
        "  knob jog",
        "".join(f"  column c{n} on P{n + 7}  {'ABCDEFGH'[n]}\n" for n in range(1, 8))
        + "  knob jog",
    )
)
"""Eight driven lines that take 480 us: longer than two states of 600 steps a second with eight."""


@functools.cache
def built(chip: str, kind: CompilerKind, pad: str = PAD) -> tuple[Mounted, Image]:
    mounted = pad_on(chip, pad)
    return mounted, image_of(mounted, kind)


def running(chip: str, kind: CompilerKind, pad: str = PAD) -> Iterator[Desk]:
    mounted, image = built(chip, kind, pad)
    pins = {}
    for knob in mounted.keyboard.knobs:
        first, second = (pin_number(pin.name) for pin in mounted.pins_of(knob))
        pins[knob.name.text] = (first, second)
    board = rp2040_board if chip == "rp2040" else avr_board
    with board(image, mounted) as made:
        host = UsbHost(made)
        host.enumerate()
        host.set_idle(0)
        yield Desk(made, host, pins)


@pytest.fixture(params=[(chip, kind) for chip in CHIPS for kind in COMPILERS], ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    yield from running(*request.param)


@pytest.fixture(params=[("at90usb162", "gcc"), ("rp2040", "clang")], ids="-".join)
def one_desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    yield from running(*request.param)


def turned(states: int, steps: int, state_us: float, back: int = 0) -> Shaft:
    shaft = Shaft(states, Random(states))
    for way, some in ((1, steps), (-1, back)):
        for _ in range(some * states):
            shaft.turn(way, state_us)
    return shaft


def test_steps_turned_at_600_a_second_are_all_told(desk: Desk) -> None:
    """With contacts that bounce; a media key and a key, each in its own reports."""
    for knob, number in (("volume", 1), ("jog", 0), ("dial", 0)):
        states = STATES[knob]
        shaft = turned(states, 8, 1e6 / 600 / states, back=3)
        found = desk.play(knob, shaft)
        steps = UP_AND_DOWN if number else {any_number(0, LEFT): -1, any_number(0, RIGHT): 1}
        assert sum(steps.get(report, 0) for report in found[number]) == shaft.counted
        assert found[1 - number] == []
        assert found[number][-1] in QUIET


def test_a_knob_that_is_turned_by_half_a_step_and_back_is_silent(one_desk: Desk) -> None:
    shaft = Shaft(4, Random(4))
    for way in (1, 1, -1, -1, -1, -1, 1, 1):
        shaft.turn(way, 2_000)
    assert one_desk.play("volume", shaft) == ([], [])


def test_a_knob_wakes_nobody_and_what_is_turned_in_the_night_is_lost(one_desk: Desk) -> None:
    one_desk.chip.suspend()
    one_desk.chip.wait(30)
    before = one_desk.chip.wakes
    shaft = turned(2, 6, 60_000)
    for move in shaft.moves:
        one_desk.set("jog", move.contacts)
        one_desk.chip.wait(30)
    assert one_desk.chip.wakes == before
    one_desk.chip.resume()
    assert one_desk.host.poll(20) == []


@pytest.mark.parametrize("chip", ["atmega32u4", "rp2040"])
def test_a_turn_of_the_main_loop_with_knobs_is_no_longer_than_told(chip: str) -> None:
    """And so is the time for which contacts are left unread: `matrixgen figures` tells both."""
    mounted, image = built(chip, "gcc")
    matrix = matrix_of(mounted.keyboard)
    times = KnobTimes(mounted, matrix, Settling(mounted, matrix).firmware_us)
    board = rp2040_board if chip == "rp2040" else avr_board
    with board(image, mounted) as made:
        UsbHost(made).enumerate()
        _, turn = made.scan_cycles(mounted)
    told = times.unread
    assert told is not None
    microseconds = turn * 1e6 / mounted.profile.clock_hz
    assert total(told[:-1]) / 1.4 < microseconds < total(told[:-1])
    assert (times.most_steps(8) or 0) > 600


@pytest.mark.parametrize("chip", ["atmega32u4", "rp2040"])
def test_a_scan_that_takes_longer_than_a_state_reads_knobs_between_its_lines(chip: str) -> None:
    for desk in running(chip, "gcc", SLOW):
        shaft = turned(8, 8, 1e6 / 600 / 8, back=3)
        found = desk.play("dial", shaft)[0]
        steps = {any_number(0, LEFT): -1, any_number(0, RIGHT): 1}
        assert sum(steps.get(report, 0) for report in found) == shaft.counted
