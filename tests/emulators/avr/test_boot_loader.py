"""Into the boot loader: by keys held down together, and by a key whose action it is.

The boot loader is an endless jump where the chip's own would start. That the program gets there
with the chip as after a reset is all that an emulator can show; what a real one makes of it is not
tried.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.avr.conftest import BUILDS
from tests.emulators.boot_loader_keys import HOLD, LAYER_KEY, LOADER_KEY, keyboard
from tests.emulators.images import image_of
from tests.emulators.keyboards import profile
from tests.emulators.usb_host import UsbHost

# Data-space addresses: Atmel 7766 section 31.
PLLCSR, WDTCSR, TCCR1B, TCNT1H, USBCON, UDCON = 0x49, 0x60, 0x81, 0x85, 0xD8, 0xE0
FRZCLK, DETACH = 0x20, 0x01
IJMP = b"\x09\x94"
PORTS = [address + offset for address in (0x23, 0x26, 0x29) for offset in (1, 2)]


@functools.cache
def built(chip: str, kind: CompilerKind) -> Image:
    return image_of(keyboard(chip), kind)


@dataclass
class Bench:
    """A keyboard that a host has enumerated, and where its boot loader is."""

    chip: AvrBoard
    host: UsbHost
    loader: int

    @property
    def has_left(self) -> bool:
        """Whether the boot loader runs; a keyboard that does not leave stays on the bus."""
        arrived = self.chip.pc == self.loader
        assert arrived == bool(self.chip.peek(USBCON) & FRZCLK)
        return arrived


@pytest.fixture(params=BUILDS, ids="-".join)
def bench(request: pytest.FixtureRequest) -> Iterator[Bench]:
    chip, kind = request.param
    mounted = keyboard(chip)
    with board(built(chip, kind), mounted) as running:
        start = mounted.profile.flash_bytes - mounted.profile.boot_loader_bytes
        running.plant_boot_loader(start)
        host = UsbHost(running)
        host.enumerate()
        yield Bench(running, host, start)


def press(bench: Bench, *keys: str) -> None:
    for key in keys:
        bench.chip.close_key(key)


def test_all_keys_together_start_the_boot_loader_after_a_second_and_not_before(
    bench: Bench,
) -> None:
    press(bench, *HOLD)
    bench.chip.wait(985)
    assert not bench.has_left
    bench.chip.wait(40)
    assert bench.has_left


@pytest.mark.parametrize("missing", HOLD)
def test_with_one_key_missing_nothing_happens(bench: Bench, missing: str) -> None:
    press(bench, *(key for key in HOLD if key != missing))
    bench.chip.wait(1200)
    assert not bench.has_left


def test_a_key_let_go_for_a_moment_starts_the_second_anew(bench: Bench) -> None:
    press(bench, *HOLD)
    bench.chip.wait(900)
    bench.chip.open_key("K01")
    bench.chip.wait(20)
    press(bench, "K01")
    bench.chip.wait(900)
    assert not bench.has_left
    bench.chip.wait(150)
    assert bench.has_left


def test_the_keys_do_it_while_the_bus_sleeps_too(bench: Bench) -> None:
    bench.chip.suspend()
    bench.chip.wait(100)
    press(bench, *HOLD)
    bench.chip.wait(1300)
    assert bench.has_left


def test_a_key_whose_action_it_is_starts_the_boot_loader_at_once(bench: Bench) -> None:
    press(bench, LOADER_KEY)
    assert len(bench.host.poll(30)) == 1
    assert not bench.has_left
    bench.chip.open_key(LOADER_KEY)
    press(bench, LAYER_KEY)
    assert len(bench.host.poll(30)) == 1
    assert not bench.has_left
    press(bench, LOADER_KEY)
    bench.chip.wait(30)
    assert bench.has_left


def test_the_boot_loader_finds_the_chip_as_after_a_reset_and_no_watchdog(bench: Bench) -> None:
    press(bench, LAYER_KEY)
    bench.chip.wait(30)
    press(bench, LOADER_KEY)
    bench.chip.wait(500)
    assert bench.has_left
    peek = bench.chip.peek
    assert (peek(USBCON), peek(UDCON) & DETACH, peek(PLLCSR)) == (FRZCLK, DETACH, 0)
    assert [peek(address) for address in (WDTCSR, TCCR1B, TCNT1H, *PORTS)] == [0] * 9


def load_immediate(register: int, value: int) -> bytes:
    """The instruction `ldi` (AVR instruction set manual, Atmel 0856), as it lies in flash."""
    return (0xE000 | (value & 0xF0) << 4 | (register - 16) << 4 | (value & 0x0F)).to_bytes(
        2, "little"
    )


@pytest.mark.parametrize("kind", ["gcc", "clang"])
@pytest.mark.parametrize("chip", ["atmega16u4", "at90usb646", "at90usb1286"])
def test_on_chips_that_no_emulator_knows_the_jump_goes_to_the_boot_section(
    chip: str, kind: CompilerKind
) -> None:
    known = profile(chip)
    words = (known.flash_bytes - known.boot_loader_bytes) // 2
    before, jump, _ = built(chip, kind).flash.partition(IJMP)
    assert jump
    assert load_immediate(30, words & 0xFF) in before[-60:]
    assert load_immediate(31, words >> 8) in before[-60:]
