"""Oscillators that take their time, or fail to start: the keyboard waits, and tries again.

How long crystals and PLLs take is chosen here, not measured. USB 2.0 section 7.1.7.3 gives a device
100 ms from power to its pull-up.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from rp2040py.rp2040 import RP2040

from tests.emulators.rp2040.board import ATTACH_MS, HERTZ, Rp2040Board
from tests.emulators.rp2040.builds import built
from tests.emulators.rp2040.clocks import FOREVER

PLLS = ("SYS", "USB")
RING_HZ = (1_800_000, 6_500_000, 12_000_000)
"""The slowest, usual and fastest ring oscillator at start-up (RP2040 datasheet section 2.17)."""


def plugged_in(before_power: Callable[[RP2040], None]) -> Rp2040Board:
    return Rp2040Board(built("gcc").flash, before_power=before_power)


def test_the_keyboard_attaches_within_100_ms_though_it_waits_64_for_the_crystal() -> None:
    chip = Rp2040Board(built("gcc").flash)
    assert chip.attached == 1
    assert 0.064 < chip.cycles / HERTZ < ATTACH_MS / 1000


def test_a_crystal_that_needs_all_of_the_64_ms_is_not_used_before() -> None:
    def slow(chip: RP2040) -> None:
        chip.xosc.swing_ms = 63.9

    assert plugged_in(slow).attached == 1


@pytest.mark.parametrize("ring_hz", RING_HZ)
def test_a_crystal_that_starts_late_is_waited_for(ring_hz: int) -> None:
    def late(chip: RP2040) -> None:
        chip.xosc.starts_after_ms = 150
        chip.clocks.ring_hz = ring_hz

    chip = plugged_in(late)
    chip.until_attached(200)
    assert (chip.attached, chip.resets) == (1, 0)


@pytest.mark.parametrize("ring_hz", RING_HZ)
def test_a_crystal_that_does_not_start_restarts_the_chip_until_it_does(ring_hz: int) -> None:
    def dead(chip: RP2040) -> None:
        chip.xosc.starts_after_ms = FOREVER
        chip.clocks.ring_hz = ring_hz

    chip = plugged_in(dead)
    chip.until_attached(4000)
    assert chip.attached == 0
    assert 4.1 / 2.1 < chip.resets < 4.1 / 0.25
    chip.rp2040.xosc.starts_after_ms = chip.clock.nanos / 1e6
    chip.until_attached(2500)
    assert chip.attached == 1


@pytest.mark.parametrize("name", PLLS)
def test_a_pll_that_takes_its_time_to_lock_is_waited_for(name: str) -> None:
    def slow(chip: RP2040) -> None:
        chip.clocks.plls[name].lock_us = 20_000

    chip = plugged_in(slow)
    assert (chip.attached, chip.resets) == (1, 0)


@pytest.mark.parametrize("name", PLLS)
def test_a_pll_that_does_not_lock_restarts_the_chip_until_it_does(name: str) -> None:
    def dead(chip: RP2040) -> None:
        chip.clocks.plls[name].lock_us = FOREVER

    chip = plugged_in(dead)
    chip.until_attached(1200)
    assert chip.attached == 0 and chip.resets >= 2
    chip.rp2040.clocks.plls[name].lock_us = 20
    chip.until_attached(700)
    assert chip.attached == 1


def test_a_pll_that_does_not_lock_after_a_nap_restarts_the_chip() -> None:
    chip = Rp2040Board(built("gcc").flash)
    chip.reset()
    chip.suspend()
    chip.wait(20)
    chip.rp2040.clocks.plls["SYS"].lock_us = FOREVER
    chip.wait(400)
    assert chip.resets == 1
