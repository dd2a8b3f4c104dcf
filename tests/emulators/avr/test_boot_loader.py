"""Into the boot loader: by keys held down together, and by a key whose action it is.

The boot loader is an endless jump where the chip's own would start. That the program gets there
with the chip as after a reset, or by a reset and with its mark in RAM, is all that an emulator can
show; what a real one makes of it is not tried.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.boards import BootLoaderEntry, Mounted
from matrixgen.families import CompilerKind
from matrixgen.record import changed
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.avr.conftest import BUILDS
from tests.emulators.boot_loader_keys import HOLD, LAYER_KEY, LOADER_KEY, keyboard
from tests.emulators.images import image_of
from tests.emulators.keyboards import profile
from tests.emulators.usb_host import UsbHost

# Data-space addresses: Atmel 7766 section 31.
PLLCSR, WDTCSR, ACSR, TCCR1B, TCNT1 = 0x49, 0x60, 0x50, 0x81, (0x84, 0x85)
UHWCON, USBCON, UDCON, UDIEN, REGCR = 0xD7, 0xD8, 0xE0, 0xE2, 0x63
MCUSR, WDRF = 0x54, 0x08
FRZCLK, DETACH = 0x20, 0x01
OFF_BUS_MS = 120
"""How long the keyboard stays away from the bus before it leaves."""

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

    @property
    def is_off_bus(self) -> bool:
        """Whether the host sees no keyboard any more."""
        return bool(self.chip.peek(UDCON) & DETACH)


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
    assert not bench.is_off_bus
    bench.chip.wait(40)
    assert bench.is_off_bus
    bench.chip.wait(OFF_BUS_MS)
    assert bench.has_left


def test_the_host_has_100_ms_to_see_that_the_keyboard_is_gone(bench: Bench) -> None:
    press(bench, LAYER_KEY)
    bench.chip.wait(30)
    press(bench, LOADER_KEY)
    while not bench.is_off_bus:
        bench.chip.wait(0.2)
    bench.chip.wait(100)
    assert bench.is_off_bus
    assert not bench.has_left
    bench.chip.wait(OFF_BUS_MS - 90)
    assert bench.has_left


@pytest.mark.few(1)
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
    bench.chip.wait(150 + OFF_BUS_MS)
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
    bench.chip.wait(30 + OFF_BUS_MS)
    assert bench.has_left


def test_the_boot_loader_finds_the_chip_as_after_a_reset_and_no_watchdog(bench: Bench) -> None:
    press(bench, LAYER_KEY)
    bench.chip.wait(30)
    press(bench, LOADER_KEY)
    bench.chip.wait(500)
    assert bench.has_left
    peek = bench.chip.peek
    assert (peek(USBCON), peek(UDCON) & DETACH, peek(PLLCSR)) == (FRZCLK, DETACH, 0)
    assert not any(peek(address) for address in (WDTCSR, ACSR, TCCR1B, *TCNT1, *PORTS))
    assert not any(peek(address) for address in (UDIEN, UHWCON, REGCR)), "the pads' regulator too"


def load_immediate(register: int, value: int) -> bytes:
    """The instruction `ldi` (AVR instruction set manual, Atmel 0856), as it lies in flash."""
    return (0xE000 | (value & 0xF0) << 4 | (register - 16) << 4 | (value & 0x0F)).to_bytes(
        2, "little"
    )


@pytest.mark.compilers_in_turn
@pytest.mark.parametrize("kind", ["gcc", "clang"])
@pytest.mark.parametrize("chip", ["atmega16u4", "at90usb646", "at90usb1286"])
def test_on_chips_that_no_emulator_knows_the_jump_goes_to_the_boot_section(
    chip: str, kind: CompilerKind
) -> None:
    known = profile(chip)
    entry = known.boot_loader_entry
    assert entry is not None and entry.address is not None
    assert entry.address == known.flash_bytes - known.boot_loader_bytes
    words = entry.address // 2
    before, jump, _ = built(chip, kind).flash.partition(IJMP)
    assert jump
    assert load_immediate(30, words & 0xFF) in before[-60:]
    assert load_immediate(31, words >> 8) in before[-60:]


def leave(mounted: Mounted, kind: CompilerKind) -> AvrBoard:
    """Return a keyboard whose reset starts its boot loader, once that key was pressed."""
    running = AvrBoard(image_of(mounted, kind), mounted.profile)
    running.wire(mounted)
    UsbHost(running).enumerate()
    running.plant_boot_loader(mounted.profile.room_bytes)
    running.reset_starts_at(mounted.profile.room_bytes)
    running.close_key(LAYER_KEY)
    running.wait(30)
    running.close_key(LOADER_KEY)
    running.wait(30 + OFF_BUS_MS)
    return running


@pytest.mark.parametrize("kind", ["gcc", "clang"])
@pytest.mark.parametrize("place", [0x0800, 0x0AFE], ids=["in the middle of RAM", "at its end"])
def test_a_boot_loader_that_wants_a_mark_finds_it_after_a_reset_by_the_watchdog(
    kind: CompilerKind, place: int
) -> None:
    plain = keyboard("stick-32u4")
    entry = plain.profile.boot_loader_entry
    assert entry is not None and (entry.kind, entry.address) == ("watchdog mark", 0x0800)
    moved = changed(plain.profile, boot_loader_entry=changed(entry, address=place))
    running = leave(changed(plain, profile=moved), kind)
    assert running.pc == plain.profile.room_bytes
    assert running.peek(MCUSR) & WDRF
    assert running.peek(place) | running.peek(place + 1) << 8 == entry.value
    running.close()


@pytest.mark.parametrize("kind", ["gcc", "clang"])
def test_where_only_the_reset_button_starts_it_the_keyboard_starts_anew(kind: CompilerKind) -> None:
    plain = keyboard("stick-32u4")
    entry = BootLoaderEntry("reset button", None, None, "made up")
    running = leave(changed(plain, profile=changed(plain.profile, boot_loader_entry=entry)), kind)
    assert running.peek(MCUSR) & WDRF
    running.close()


def test_a_jump_goes_where_the_profile_says() -> None:
    mounted = keyboard("board-32u4-25")
    with board(image_of(mounted, "gcc"), mounted) as running:
        running.plant_boot_loader(0x7E00)
        UsbHost(running).enumerate()
        running.close_key(LAYER_KEY)
        running.wait(30)
        running.close_key(LOADER_KEY)
        running.wait(30 + OFF_BUS_MS)
        assert running.pc == 0x7E00
