"""The pointer and its wheels, each promise by itself: the curve, the computer's pace, the reports.

Reports and descriptor: HID 1.11 section 6.2.2 and appendix B.2, HID Usage Tables sections 4, 12 and
15; hid-tools parses and decodes them. The distance is the speed integrated exactly, with fractions.
"""

from __future__ import annotations

import ctypes
import random
from collections.abc import Iterator
from decimal import Decimal, getcontext
from fractions import Fraction

import pytest
from hidtools.hid import ReportDescriptor

from matrixgen.behaviour import Machine
from matrixgen.behaviour.pointer import MOST_PASSED_MS, Pair, PointerReports
from matrixgen.model.speeds import LARGEST_UNIT, POINTER_SPEED, WHEEL_SPEED, Speed
from matrixgen.source.blocks.speeds import POINTER_STEPS, WITHIN_MS
from tests.amounts import amount
from tests.firmware.host_build import COMPILERS, HostKeyboard, host_view, shared_library
from tests.firmware.pads import LEFT_SHIFT, lone_pointer, pointer_key, pointer_pad
from tests.reports import NOTHING_DOWN, any_number

getcontext().prec = 60
LAST_MS = amount("MATRIXGEN_POINTER_MS", suite=4_000, long=600_000)
PAD_POINTER, PAD_WHEEL = Speed(90, 2300, 350), Speed(11, 170, 500)
SPEEDS = (
    POINTER_SPEED,
    WHEEL_SPEED,
    PAD_POINTER,
    Speed(333, 333, 1),
    Speed(POINTER_STEPS[0], POINTER_STEPS[1], WITHIN_MS[1]),
    Speed(POINTER_STEPS[0], POINTER_STEPS[0] + 1, WITHIN_MS[1]),
    Speed(POINTER_STEPS[0], POINTER_STEPS[1], WITHIN_MS[0]),
    Speed(POINTER_STEPS[1], POINTER_STEPS[1], WITHIN_MS[0]),
)
ROUNDED = Decimal("0.05")
"""Of a step: what the parts of a step on a diagonal may differ by, in all, since they are whole."""


def distance(speed: Speed, ms: int) -> Fraction:
    """The integral of the speed over so many milliseconds, in steps."""
    growing = min(ms, speed.within_ms)
    slope = Fraction(speed.most - speed.start, speed.within_ms)
    grown = speed.start * growing + slope * growing * growing / 2
    return (grown + speed.most * (ms - growing)) / 1000


def moved(report: bytes | None) -> tuple[int, int, int, int]:
    """How far each axis moved in a report."""
    if report is None:
        return 0, 0, 0, 0
    assert report[0] == 4 and len(report) == 6
    x, y, wheel, pan = (byte - 256 * (byte > 127) for byte in report[2:])
    return x, y, wheel, pan


# --- the curve ---


@pytest.mark.parametrize("speed", SPEEDS, ids=str)
def test_the_steps_of_the_model_are_the_whole_ones_of_the_integral(speed: Speed) -> None:
    pair = Pair(speed.curve)
    pair.turn((1, 0))
    steps = 0
    for ms in range(LAST_MS):
        steps += pair.axes[0].due
        pair.axes[0].due = 0
        assert steps == 1 + int(distance(speed, ms)), ms
        pair.pass_millisecond()


@pytest.mark.parametrize("speed", SPEEDS, ids=str)
def test_along_the_diagonal_the_speed_is_the_same_within_a_step(speed: Speed) -> None:
    pair = Pair(speed.curve)
    pair.turn((1, -1))
    steps, root = [0, 0], Decimal(2).sqrt()
    for ms in range(LAST_MS):
        for place, axis in enumerate(pair.axes):
            steps[place] += abs(axis.due)
            axis.due = 0
        exact = distance(speed, ms)
        each = Decimal(exact.numerator) / Decimal(exact.denominator) / root
        assert steps[0] == steps[1] and -ROUNDED <= steps[0] - each <= 1 + ROUNDED, ms
        pair.pass_millisecond()


@pytest.mark.parametrize("speed", SPEEDS, ids=str)
def test_no_sum_of_the_engine_needs_more_than_32_bits(speed: Speed) -> None:
    curve = speed.curve
    assert curve.unit <= LARGEST_UNIT
    for one in (curve, curve.diagonal):
        assert 0 < one.start <= one.most and one.most + one.grow + curve.unit < 1 << 32


# --- the engine ---


class PointerPad(HostKeyboard):
    def press(self, *keys: str) -> None:
        for key in keys:
            self.close(key, True)
        self.step()

    def release(self, *keys: str) -> None:
        for key in keys:
            self.close(key, False)
        self.step()
        self.advance(6)
        self.step()

    def run(self, milliseconds: int, poll_ms: int = 1) -> Iterator[bytes]:
        """Let time pass, and yield the reports that a host takes that asks every so often."""
        for ms in range(milliseconds):
            if ms % poll_ms == 0 and (report := self.take_media()) is not None:
                yield report
            self.advance(1)
            self.step()

    def sums(self, milliseconds: int, poll_ms: int = 1) -> list[int]:
        reports = map(moved, self.run(milliseconds, poll_ms))
        return [sum(axis) for axis in zip((0, 0, 0, 0), *reports, strict=True)]


@pytest.fixture(scope="module", params=COMPILERS)
def library(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param)
    board = pointer_pad()
    return PointerPad(shared_library(board, folder, request.param), host_view(board))


@pytest.fixture
def pad(library):
    library.restart()
    yield library
    assert library.faults() == 0


@pytest.mark.parametrize("poll_ms", [1, 8, 10])
def test_what_the_host_gets_is_the_curve_at_any_pace(pad, poll_ms: int) -> None:
    pad.press("Right")
    total = 0
    for ms in range(0, 3 * poll_ms * 100, poll_ms):
        total += moved(pad.take_media())[0]
        asked_ms = max(0, ms - poll_ms + 1)  # what moved since may be in the next report
        least, most = (1 + int(distance(PAD_POINTER, when)) for when in (asked_ms, ms))
        assert least <= total <= most, ms
        for _ in range(poll_ms):
            pad.advance(1)
            pad.step()


def test_a_clock_that_jumps_moves_as_far_but_no_farther_than_it_may_have_slept(pad) -> None:
    pad.press("Right")
    pad.take_media()
    pad.advance(37)
    pad.step()
    assert moved(pad.take_media())[0] == int(distance(PAD_POINTER, 37))
    pad.advance(5000)
    pad.step()
    both = int(distance(PAD_POINTER, 37 + MOST_PASSED_MS)) - int(distance(PAD_POINTER, 37))
    assert moved(pad.take_media())[0] == min(both, 127)


def test_opposite_keys_cancel_and_the_next_way_begins_slowly_with_a_step(pad) -> None:
    pad.press("Right")
    pad.sums(400)
    pad.press("Left")
    pad.take_media()
    assert pad.sums(100) == [0, 0, 0, 0]
    pad.release("Right")  # which counts after the debounce time
    expected = 1 + int(distance(PAD_POINTER, 99))
    assert pad.sums(100)[0] == -expected


def test_a_second_axis_keeps_the_speed_and_the_first_key_s_end_too(pad) -> None:
    pad.press("Right")
    pad.sums(500)
    pad.press("Down")
    x, y, *_ = pad.sums(200)
    assert abs(x * x + y * y - (2.3 * 200) ** 2) < 2.3 * 200 * 2 * 2
    pad.release("Right")
    pad.sums(20)
    assert abs(pad.sums(100)[1] - 230) <= 2


def test_what_waits_is_at_most_127_steps_and_opposite_ones_cancel(pad) -> None:
    pad.press("Right")
    pad.take_media()
    for _ in range(800):  # nobody asks
        pad.advance(1)
        pad.step()
    assert moved(pad.take_media())[0] == 1, "it waited since there was one"
    pad.step()
    assert moved(pad.take_media())[0] == 127


def test_a_key_never_waits_for_movement(pad) -> None:
    pad.press("Right")
    for _ in range(300):  # a host that does not ask for the pointer
        pad.advance(1)
        pad.step()
    pad.close("A", True)
    pad.step()
    assert pad.take() == any_number(0, 0x04)
    pad.release("A")
    assert pad.take() == NOTHING_DOWN


def test_a_button_is_told_after_the_modifier_that_was_meant_for_it(pad) -> None:
    pad.press("OnceShift")
    pad.release("OnceShift")
    assert pad.take() == any_number(LEFT_SHIFT)
    pad.press("B1")
    assert moved(pad.take_media()) == (0, 0, 0, 0)
    report = next(iter(pad.run(3)), None) or b"\4\1\0\0\0\0"
    assert report[1] == 1
    pad.release("B1")


def test_wheels_turn_by_whole_steps_and_a_short_tap_is_one(pad) -> None:
    pad.press("WUp")
    assert pad.sums(30) == [0, 0, 1, 0]
    pad.release("WUp")
    pad.sums(10)
    pad.press("WRight")
    assert pad.sums(30) == [0, 0, 0, 1]


# --- the report, by hid-tools ---


def descriptor_of(keys: HostKeyboard, length: int) -> ReportDescriptor:
    stored = (ctypes.c_uint8 * length).in_dll(keys.c, "media_descriptor")
    return ReportDescriptor.from_bytes(list(stored))


def test_hid_tools_reads_buttons_axes_and_wheels(tmp_path) -> None:
    board = lone_pointer()
    keys = PointerPad(shared_library(board, tmp_path), host_view(board))
    descriptor = descriptor_of(keys, host_view(board).pointer.descriptor_bytes)
    (report,) = descriptor.input_reports.values()
    assert not descriptor.output_reports and not descriptor.feature_reports
    assert report.application == 0x010002, "generic desktop, mouse"
    fields = [one for one in report if not one.is_const and one.usage_name != "Report ID"]
    usages = [(one.usage >> 16, one.usage & 0xFFFF) for one in fields]
    axes = [(0x01, 0x30), (0x01, 0x31), (0x01, 0x38), (0x0C, 0x238)]
    assert usages == [*((0x09, number) for number in range(1, 6)), *axes]
    assert report.bitsize == 8 * 6


def test_every_report_means_what_the_keys_do(pad) -> None:
    view = host_view(pointer_pad())
    length = view.media.descriptor_bytes + view.pointer.descriptor_bytes
    descriptor = descriptor_of(pad, length)
    assert set(descriptor.input_reports) == {1, 2, 4}
    chance, told = random.Random(1), 0
    names = [key for key in pad.crossings if key[0] in "LRUDWB"]
    down: set[str] = set()
    for _ in range(300):
        key = chance.choice(names)
        down ^= {key}
        pad.close(key, key in down)
        for report in pad.run(chance.choice((3, 9, 30))):
            if report[0] != 4:
                continue
            fields = descriptor.get(4, len(report))
            values = {
                one.usage & 0xFFFF: one.get_values(list(report))[0]
                for one in fields
                if not one.is_const and one.usage_name != "Report ID"
            }
            assert tuple(values[one] for one in (0x30, 0x31, 0x38, 0x238)) == moved(report)
            assert sum(values[n] << n - 1 for n in range(1, 6)) == report[1]
            told += 1
    assert told > 500


def test_the_model_lets_buttons_go_and_forgets_movement_where_nobody_listens() -> None:
    reports = PointerReports((PAD_POINTER, PAD_WHEEL))
    reports.hold({pointer_key("PointerRight"), pointer_key("Button1")})
    reports.not_heard()
    assert not reports.moves and reports.is_news
    reports.hold(set())
    assert not reports.is_news, "nothing is down, and nobody was told that something was"


def test_a_text_lets_go_of_the_pointer() -> None:
    machine = Machine(pointer_pad())
    machine.closed |= {"Right", "B1"}
    for ms in range(30):
        machine.now_ms = ms
        machine.step()
        machine.take_media()
    machine.closed |= {"Text"}
    sums = []
    for ms in range(30, 300):
        machine.now_ms = ms
        machine.step()
        machine.take()
        if (report := machine.take_media()) is not None:
            sums.append((report[1], moved(report)))
    assert sums[-1][0] == 0 and len(sums) <= 3
