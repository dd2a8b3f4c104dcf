"""The times that are told, against the cycles of the emulated chips. Emulated, not silicon."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.boards import Mounted
from matrixgen.circuit.settling import Settling
from matrixgen.circuit.timing import PACKET_US, POLL_US, Timing, total
from matrixgen.families import FAMILIES
from matrixgen.model import Number, matrix_of
from matrixgen.record import changed
from matrixgen.toolchain import Image
from tests.amounts import IS_LONG
from tests.emulators.avr.board import board as avr_board
from tests.emulators.images import image_of
from tests.emulators.keyboards import SPAN, profile, rectangle
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import NAMES, example, image

BOARDS = {"avr": avr_board, "rp2040": rp2040_board}


def timing(name: str, family: str | None = None) -> Timing:
    mounted = example(name, family).mounted
    matrix = matrix_of(mounted.keyboard)
    given = mounted.keyboard.wiring.settle_us
    return Timing(mounted, matrix, int(given.value) if given else Settling(mounted, matrix).wait_us)


def turn_us(made: Image, mounted: Mounted) -> float:
    """Return what a turn of the main loop takes on the emulated chip, at rest, on the bus."""
    with BOARDS[mounted.profile.port or ""](made, mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        host.poll(3)
        _, turn = chip.scan_cycles(mounted)
    return turn * 1e6 / mounted.profile.clock_hz


@pytest.mark.few(7)
@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", NAMES)
def test_a_turn_of_the_main_loop_is_no_longer_than_told_and_not_much_shorter(name, family) -> None:
    shipped = example(name, family)
    told = timing(name, family).turn
    assert told is not None
    taken = turn_us(image(name, "gcc", family), shipped.mounted)
    assert total(told) / 1.3 < taken < total(told)


PLAIN_KEYS = {"whimbrel-34": ["Q", "P", "Z", "/", "T"], "redshank-30": ["7", "5", "3", "0", "At"]}
"""Of the keyboards with every behaviour, and with keys that type in turn."""


@pytest.mark.few(2)
@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", PLAIN_KEYS)
def test_a_press_is_reported_as_soon_as_told(name, family) -> None:
    """At whatever moment of a turn the key is closed."""
    shipped, of = example(name, family), timing(name, family)
    assert of.to_host
    told = sum(term.us for term in of.to_host if term.us not in (POLL_US, PACKET_US))
    chance, taken = Random(1), []
    with BOARDS[family](image(name, "gcc", family), shipped.mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        for key in PLAIN_KEYS[name] * 8:
            host.poll(10)
            chip.run(chance.randrange(chip.cycles_per_ms))
            closed = chip.cycles
            chip.close_key(key)
            given = chip.until_report()
            assert given is not None
            taken.append((given - closed) * 1000 / chip.cycles_per_ms)
            host.poll(1)
            chip.open_key(key)
    assert told / 1.6 < max(taken) < told


def test_no_times_are_told_of_a_controller_that_nothing_is_built_for() -> None:
    of = timing("heron-12")
    alone = changed(of.mounted, profile=changed(of.mounted.profile, port=None))
    assert changed(of, mounted=alone).turn is None
    assert changed(of, mounted=alone).to_host is None


AVR_PORTS = ("B", "BD", "BDF", "BDFC", "BDFCE")
SETTLE_US = (0, 1, 2, 6) if IS_LONG else (1,)  # where a wait has its least length


@pytest.mark.few(3)
@pytest.mark.parametrize("settle_us", SETTLE_US)
@pytest.mark.parametrize("ports", AVR_PORTS)
@pytest.mark.parametrize("drives", [1, 7])
def test_lines_on_many_ports_and_short_waits_take_no_longer_than_told(
    ports, settle_us, drives
) -> None:
    """Each port is read and compared, and a wait has a least length. On a chip with five ports."""
    pins = [pin.name for pin in profile("atmega32u4").usable_pins]
    sensed = [pin for port in ports for pin in [pin for pin in pins if pin[1] == port][:4]]
    driven = [pin for pin in pins if pin not in sensed][:drives]
    mounted, _ = rectangle("atmega32u4", driven, sensed, "row")
    wiring = changed(mounted.keyboard.wiring, settle_us=Number(settle_us, SPAN))
    mounted = changed(mounted, keyboard=changed(mounted.keyboard, wiring=wiring))
    told = Timing(mounted, matrix_of(mounted.keyboard), settle_us).turn
    assert told
    assert total(told) / 1.7 < turn_us(image_of(mounted, "gcc"), mounted) < total(told)
