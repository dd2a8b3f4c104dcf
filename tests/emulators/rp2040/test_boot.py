"""From power-on to the keyboard, through the real boot ROM's image: second stage, clocks, resets.

The checksum's check values are of the CRC catalogue's CRC-32/MPEG-2 and of 252 zero bytes. What the
emulator cannot show: whether a flash chip takes 31 MHz (its flash is an array), how long crystal
and PLLs take to start (what the harness says), and what RAM holds after power-on.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.keyboards import square
from tests.emulators.rp2040.blocks import FLASH
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.builds import (
    CONTROLLER,
    KINDS,
    built,
    compiled,
    tree_of,
    twice_to_boot_loader,
)
from tests.emulators.usb_host import UsbHost

BOOT_ROM_DRIVE = bytes.fromhex("8a2e0300")
"""Vendor 2E8A, product 0003: the boot ROM's own device (RP2040 datasheet section 2.8.5)."""

KEYBOARD = bytes.fromhex("09120100")
PLL_SYS, PLL_USB = 0x40028, 0x4002C


def crc32_mpeg2(data: bytes) -> int:
    """Datasheet section 2.8.1.3.1: polynomial 04C11DB7, starts with all ones, unreflected."""
    value = 0xFFFFFFFF
    for byte in data:
        value ^= byte << 24
        for _ in range(8):
            value = (value << 1 ^ (0x04C11DB7 if value >> 31 else 0)) & 0xFFFFFFFF
    return value


def test_the_checksum_is_the_published_one() -> None:
    assert crc32_mpeg2(b"123456789") == 0x0376E6E7
    assert crc32_mpeg2(bytes(252)) == 0x7065399A


@pytest.mark.parametrize("kind", KINDS)
def test_the_second_stage_has_the_checksum_of_its_252_bytes(kind: CompilerKind) -> None:
    stage = built(kind).flash[:256]
    expected = crc32_mpeg2(stage[:252])
    assert int.from_bytes(stage[252:], "little") == expected, f"boot2.c must say {expected:#010x}"


def test_both_compilers_make_the_same_second_stage() -> None:
    assert built("gcc").flash[:256] == built("clang").flash[:256]


@pytest.mark.parametrize("kind", KINDS)
def test_the_vectors_follow_the_second_stage(kind: CompilerKind) -> None:
    flash = built(kind).flash
    stack, reset = (int.from_bytes(flash[at : at + 4], "little") for at in (0x100, 0x104))
    assert stack == 0x20042000  # the end of 264 KiB
    assert reset & 1 and FLASH + 0x100 < reset < FLASH + len(flash)


def identity(chip: Rp2040Board) -> bytes:
    """Return the ids of the device on the bus."""
    host = UsbHost(chip)
    chip.reset()
    return host.descriptor(1, length=18)[8:12]


def test_the_boot_rom_starts_the_keyboard() -> None:
    chip = Rp2040Board(built("gcc").flash)
    assert chip.attached == 1
    assert identity(chip) == KEYBOARD


@pytest.mark.few(2)
@pytest.mark.parametrize("place", [0, 100, 251, 252, 255])
def test_the_boot_rom_refuses_a_second_stage_with_a_wrong_bit(place: int) -> None:
    flash = bytearray(built("gcc").flash)
    flash[place] ^= 1
    chip = Rp2040Board(bytes(flash))
    chip.wait(250)
    assert identity(chip) == BOOT_ROM_DRIVE


def test_the_plls_make_125_and_48_mhz_within_their_limits() -> None:
    """Datasheet section 2.18.2: the oscillator runs at 750 to 1,600 MHz."""
    chip = Rp2040Board(built("gcc").flash)
    assert (chip.pll_hertz(PLL_SYS), chip.pll_hertz(PLL_USB)) == (125e6, 48e6)
    for place in (PLL_SYS, PLL_USB):
        assert 750e6 <= chip.rp2040.peripherals[place].block.vco_hz <= 1600e6


def test_every_clock_that_is_used_comes_from_the_crystal() -> None:
    """Datasheet section 2.15.7: which source each clock has, and that USB's is on."""
    clocks = Rp2040Board(built("gcc").flash).rp2040.clocks
    assert clocks.ref_ctrl == 2  # the crystal
    assert clocks.sys_ctrl == 1  # PLL_SYS
    assert clocks.usb_ctrl == 1 << 11  # PLL_USB, enabled
    assert (clocks.ref_div, clocks.sys_div, clocks.usb_div) == (1 << 8,) * 3


def test_a_reset_starts_the_keyboard_again() -> None:
    chip = Rp2040Board(built("gcc").flash)
    for _ in range(2):
        chip.press_reset()
        chip.until_attached()
    assert chip.attached == 3
    assert identity(chip) == KEYBOARD


# --- two presses of reset -----------------------------------------------------------------------


@contextmanager
def asking_for_double_reset(kind: CompilerKind = "gcc") -> Iterator[Rp2040Board]:
    tree = tree_of(twice_to_boot_loader(square(2, controller=CONTROLLER)))
    chip = Rp2040Board(compiled(tree, kind).flash)
    chip.share = 0.1
    yield chip


@pytest.mark.parametrize("kind", KINDS)
def test_two_presses_of_reset_within_half_a_second_start_the_drive(kind: CompilerKind) -> None:
    with asking_for_double_reset(kind) as chip:
        chip.wait(700)  # power-on is a first press, which is over by now
        chip.press_reset()
        chip.wait(400)
        assert identity(chip) == KEYBOARD
        chip.press_reset()
        chip.share = 1
        chip.wait(100)
        assert identity(chip) == BOOT_ROM_DRIVE


def test_two_presses_of_reset_with_a_pause_between_start_the_keyboard() -> None:
    with asking_for_double_reset() as chip:
        for _ in range(2):
            chip.press_reset()
            chip.wait(600)
        assert identity(chip) == KEYBOARD


@pytest.mark.parametrize("kind", KINDS)
def test_a_supply_that_fails_twice_is_no_press_though_ram_keeps_the_mark(
    kind: CompilerKind,
) -> None:
    """A plug that makes bad contact: CHIP_RESET has HAD_POR then (datasheet section 2.12.8)."""
    with asking_for_double_reset(kind) as chip:
        for times in range(1, 4):
            chip.power_fails()
            chip.wait(150)
            assert identity(chip) == KEYBOARD
            assert chip.attached == 1 + times


def test_a_press_a_moment_after_the_supply_failed_is_the_second_one() -> None:
    with asking_for_double_reset() as chip:
        chip.wait(700)
        chip.power_fails()
        chip.wait(200)
        chip.press_reset()
        chip.share = 1
        chip.wait(100)
        assert identity(chip) == BOOT_ROM_DRIVE


def test_a_start_by_the_watchdog_is_no_press() -> None:
    with asking_for_double_reset() as chip:
        chip.wait(100)
        chip.hang(0x8000)
        chip.wait(400)
        assert chip.attached == 2
        assert identity(chip) == KEYBOARD


def test_after_the_drive_a_reset_starts_the_keyboard() -> None:
    with asking_for_double_reset() as chip:
        chip.share = 1
        chip.press_reset()  # power-on, a moment ago, is the first press
        chip.wait(150)
        assert identity(chip) == BOOT_ROM_DRIVE
        chip.press_reset()
        chip.until_attached()
        assert identity(chip) == KEYBOARD
