"""Lights of the C on the host, beside the model: locks by the output report, layers as they are on.

HID 1.11 appendix B.1 has the bits of a keyboard's output report, and section 7.2.2 SET_REPORT.
"""

from __future__ import annotations

import random

import pytest
from hidtools.hid import ReportDescriptor

from matrixgen.behaviour import Machine
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.model import LOCKS
from matrixgen.record import changed
from tests.amounts import amount
from tests.firmware.host_build import COMPILERS, HostKeyboard, host_view, shared_library
from tests.firmware.lights import LIGHTS, pad
from tests.firmware.test_host_usb import BUS_RESET, BUS_RESUME, BUS_SUSPEND, UsbKeyboard

KEYBOARD = pad("atmega32u4").keyboard
ROUNDS = amount("MATRIXGEN_LIGHTS", suite=16, long=2000)
SET_REPORT, SET_PROTOCOL = 0x09, 0x0B


@pytest.fixture(scope="module", params=COMPILERS)
def usb(request, tmp_path_factory):
    built = shared_library(
        KEYBOARD, tmp_path_factory.mktemp(request.param), request.param, with_usb=True
    )
    return UsbKeyboard(built, host_view(KEYBOARD))


@pytest.fixture
def board(usb):
    usb.restart()
    yield usb
    assert usb.faults() == 0


def told(board: UsbKeyboard, report: bytes, kind: int = 2, *, ends: bool = True) -> None:
    """SET_REPORT on endpoint 0."""
    board.c.host_send_setup(bytes([0x21, SET_REPORT, 0, kind, 0, 0, len(report), 0]))
    board.turn()
    assert board.c.host_send_out(report, len(report))
    board.turn()
    assert not ends or board._taken(board.c.host_take_in) == b""


def test_all_lights_are_dark_until_a_computer_listens_and_tells(board):
    assert board.lit() == frozenset()
    board.close("Hold", True)
    board.turn()
    assert board.lit() == frozenset()  # not configured: nobody listens
    board.configure()
    board.turn()
    assert board.lit() == {"one"}


@pytest.mark.parametrize("boot", [False, True])
def test_each_lock_is_lit_by_its_own_bit_in_either_protocol(board, boot):
    board.configure()
    board.write(bytes([0x21, SET_PROTOCOL, not boot, 0, 0, 0, 0, 0]))
    for report in range(32):  # the other bits are constant, whatever a host puts there
        told(board, bytes([report | 0xE0]))
        assert board.lit() == {lock for bit, lock in enumerate(LOCKS) if report >> bit & 1}


def test_a_report_with_padding_is_read_by_its_first_byte(board):
    board.configure()
    told(board, bytes([2, 0xFF, 0xFF]))
    assert board.lit() == {"CapsLock"}
    told(board, bytes([0xFF] * 8), kind=1)  # an input report means nothing
    assert board.lit() == {"CapsLock"}


def test_lights_are_dark_while_the_bus_sleeps_and_as_before_when_it_wakes(board):
    board.configure()
    told(board, b"\x1f")
    board.close("Latch", True)
    board.turn()
    lit = board.lit()
    assert lit == {*LOCKS, "two"}
    board.c.host_bus(BUS_SUSPEND)
    naps = board.c.host_naps()
    board.turn(1)
    assert board.c.host_naps() == naps + 1 and board.lit() == frozenset()  # before the first nap
    board.turn(5)
    assert board.lit() == frozenset()
    board.c.host_bus(BUS_RESUME)
    board.turn(1)
    assert board.lit() == lit


def test_a_bus_reset_turns_locks_off_until_a_computer_tells_again(board):
    board.configure()
    told(board, b"\x1f")
    board.c.host_bus(BUS_RESET)
    board.turn()
    assert board.lit() == frozenset()
    board.configure()
    board.turn()
    assert board.lit() == frozenset()
    told(board, b"\x01")
    assert board.lit() == {"NumLock"}


def test_the_report_descriptor_has_an_output_report_of_the_five_lights(board):
    board.configure()
    descriptor = board.read(bytes([0x81, 6, 0, 0x22, 0, 0, 255, 0]))
    parsed = ReportDescriptor.from_bytes(descriptor)
    (report,) = parsed.output_reports.values()
    leds = [field for field in report if field.usage >> 16 == 0x08]
    assert [(field.usage & 0xFFFF, field.start, field.size) for field in leds] == [
        (usage, usage - 1, 1) for usage in range(1, 6)
    ]
    assert report.size == 1


# --- layers ---


@pytest.fixture(scope="module", params=COMPILERS)
def engine(request, tmp_path_factory):
    built = shared_library(KEYBOARD, tmp_path_factory.mktemp(request.param), request.param)
    return HostKeyboard(built, host_view(KEYBOARD))


def test_a_light_follows_each_way_in_which_its_layers_come_on_and_end(engine):
    def after(key: str, down: bool) -> frozenset[str]:
        engine.close(key, down)
        for _ in range(8):
            engine.c.loop_step()
            engine.take()
            engine.advance(1)
        return engine.lit()

    def tapped(key: str) -> frozenset[str]:
        after(key, True)
        return after(key, False)

    assert after("Hold", True) == {"one"}
    assert tapped("Latch") == {"one", "two", "both"}
    assert after("Hold", False) == {"two"}
    assert tapped("Latch") == set()
    assert tapped("Once") == {"three"}
    assert tapped("A") == set()
    assert tapped("Base") == {"other"}
    assert after("Hold", True) == {"one", "other", "some"}
    engine.leds(0x12)
    assert tapped("Back") == {"one", "CapsLock", "Kana"}
    engine.transport(open=False, boot=False)
    assert after("Hold", False) == set()
    engine.transport(open=True, boot=False)
    assert tapped("Latch") == {"two", "CapsLock", "Kana"}


def test_lights_follow_the_layers_of_the_model_over_random_fingers(engine):
    names = [key.name.text for key in KEYBOARD.keys]
    seen = set()
    for seed in range(ROUNDS):
        chance = random.Random(seed)
        engine.restart()
        model = Machine(KEYBOARD)
        for _ in range(40):
            key = chance.choice(names)
            model.closed ^= {key}
            engine.close(key, key in model.closed)
            if chance.random() < 0.2:
                model.leds = chance.randrange(32)
                engine.leds(model.leds)
            if chance.random() < 0.05:
                model.is_open = not model.is_open
                engine.transport(open=model.is_open, boot=False)
            for _ in range(chance.choice((1, 4, 12, 220))):
                turn(engine, model)
                seen |= model.lit()
                assert engine.lit() == model.lit(), (seed, model.now_ms)
    assert seen == {light.name.text for light in KEYBOARD.wiring.lights}
    assert engine.faults() == 0


def turn(engine: HostKeyboard, model: Machine) -> None:
    """A turn of both, in which the computer takes what is given; then a millisecond."""
    engine.c.loop_step()
    model.step()
    assert engine.take() == model.take()
    engine.advance(1)
    model.now_ms += 1


@pytest.mark.parametrize("some", [LIGHTS[1:2], LIGHTS[5:6], (*LIGHTS[:1], *LIGHTS[6:7])])
def test_a_light_needs_only_what_its_kind_needs(some):
    tree = firmware_tree(firmware_view(pad("atmega32u4", some), "lights.keys"))
    text = b"".join(tree.values())
    shows_lock = any(light.split()[0] in LOCKS for light in some)
    assert (b"transport_leds" in text) == shows_lock
    assert (b"layers_lying" in text) == any("while" in light for light in some)


def test_without_lights_there_is_no_trace_of_any():
    tree = firmware_tree(firmware_view(pad("atmega32u4", ()), "pad.keys"))
    text = b"".join(content for name, content in tree.items() if name.endswith((".c", ".h")))
    traces = (b"light_", b"lights", b"LIGHT", b"transport_leds", b"layers_lying")
    assert not any(trace in text for trace in traces) and "engine/lights.c" not in tree


def test_the_order_of_lights_in_the_file_is_none_of_the_image():
    one = pad("atmega32u4")
    wiring = changed(one.keyboard.wiring, lights=one.keyboard.wiring.lights[::-1])
    other = changed(one, keyboard=changed(one.keyboard, wiring=wiring))
    trees = [firmware_tree(firmware_view(mounted, "lights.keys")) for mounted in (one, other)]
    assert trees[0] == trees[1]
