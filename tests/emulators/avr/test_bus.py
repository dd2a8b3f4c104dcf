"""The bus asleep and awake, and the watchdog, as far as simavr has them.

simavr's USB block has no suspend, resume or remote wake-up; the harness sets the flags that the
datasheet says the chip sets. Power-down is a jump in time. So these tests show that the firmware
follows the datasheet, not that silicon does.
"""

from __future__ import annotations

import io

import pytest
from elftools.elf.elffile import ELFFile

from matrixgen.families import AVR
from matrixgen.toolchain import Image
from tests.emulators.avr.board import board
from tests.emulators.avr.conftest import Desk, built
from tests.emulators.avr.test_enumeration import any_number_report
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost

SET_FEATURE, REMOTE_WAKEUP = 3, 1
PLLCSR, USBCON, FRZCLK = 0x49, 0xD8, 0x20
UNUSED_FLASH = 0x2F00


def allow_wake_up(desk: Desk) -> None:
    desk.host.write(0x00, SET_FEATURE, REMOTE_WAKEUP, 0)


def test_a_suspended_keyboard_sleeps_with_its_clocks_off(desk: Desk) -> None:
    desk.chip.suspend()
    desk.chip.wait(20)
    before, slept = desk.chip.cycles, desk.chip.slept
    desk.chip.wait(500)
    share = (desk.chip.slept - slept) / (desk.chip.cycles - before)
    assert share > 0.98
    assert desk.chip.peek(PLLCSR) == 0
    assert desk.chip.peek(USBCON) & FRZCLK
    assert desk.chip.frozen_uses == 0


def test_a_resumed_keyboard_still_has_its_address_and_types(desk: Desk) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.resume()
    desk.chip.wait(2)
    assert desk.chip.address == 5
    assert desk.host.read(0x80, 8, 0, 0, 1) == b"\1"
    desk.chip.close_key("K00")
    assert desk.host.poll(3) == [any_number_report(0x04)]
    assert desk.chip.frozen_uses == 0


def test_a_key_wakes_a_host_that_allows_it(desk: Desk) -> None:
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.wait(100)
    assert desk.chip.wakes == 0
    desk.chip.close_key("K00")
    desk.chip.wait(40)
    assert desk.chip.wakes == 1
    desk.chip.resume()
    assert desk.host.poll(5) == [any_number_report(0x04)]
    assert desk.chip.frozen_uses == 0


def test_a_key_does_not_wake_a_host_that_has_not_allowed_it(desk: Desk) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.close_key("K00")
    desk.chip.wait(200)
    assert desk.chip.wakes == 0


def test_the_host_is_not_woken_before_the_bus_was_idle_for_5_ms(desk: Desk) -> None:
    """USB 2.0 section 7.1.7.7; SUSPI comes after 3 ms of an idle bus."""
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.close_key("K00")
    desk.chip.wait(4)
    assert desk.chip.wakes == 0
    desk.chip.wait(30)  # a key has to be down over a nap
    assert desk.chip.wakes == 1


def test_a_host_that_does_not_wake_is_asked_again_by_the_next_key(desk: Desk) -> None:
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.close_key("K00")
    desk.chip.wait(60)
    assert desk.chip.wakes == 1
    desk.chip.poke(0xE0, 0)  # the chip has signalled; nothing answers
    desk.chip.suspend()
    desk.chip.wait(400)
    desk.chip.close_key("K01")
    desk.chip.wait(60)
    assert desk.chip.wakes == 2


def test_a_host_that_takes_its_time_to_wake_still_finds_the_keyboard(desk: Desk) -> None:
    """After the keyboard has given up waiting and naps again."""
    allow_wake_up(desk)
    desk.chip.suspend()
    desk.chip.wait(100)
    desk.chip.close_key("K00")
    for _ in range(40):
        desk.chip.wait(7.3)
    desk.chip.resume()
    assert desk.host.poll(5) == [any_number_report(0x04)]


def test_keys_pressed_and_released_asleep_are_not_stuck_afterwards(desk: Desk) -> None:
    desk.chip.close_key("K00")
    desk.host.poll(3)
    desk.chip.suspend()
    desk.chip.wait(50)
    desk.chip.open_key("K00")
    desk.chip.wait(100)
    desk.chip.resume()
    assert desk.host.poll(5)[-1] == any_number_report()


def test_a_bus_reset_wakes_a_suspended_keyboard(desk: Desk) -> None:
    desk.chip.suspend()
    desk.chip.wait(100)
    assert desk.host.enumerate().device == desk.descriptors.device


def test_a_program_that_hangs_is_restarted_by_the_watchdog(desk: Desk) -> None:
    assert desk.chip.attached == 1
    desk.chip.hang(UNUSED_FLASH)
    desk.chip.wait(200)
    assert desk.chip.attached == 1
    desk.chip.wait(200)
    assert desk.chip.attached == 2
    desk.chip.wait(400)
    assert desk.chip.attached == 2, "the watchdog must not run on through the restart"
    assert desk.host.enumerate().device == desk.descriptors.device


def test_the_watchdog_is_fed_awake_and_asleep(desk: Desk) -> None:
    desk.chip.wait(600)
    desk.chip.suspend()
    desk.chip.wait(600)
    assert desk.chip.attached == 1


def test_the_stack_has_left_the_reserve_untouched(desk: Desk) -> None:
    for key in ("K00", "K01", "K10", "K11"):
        desk.chip.close_key(key)
        desk.host.poll(2)
    desk.chip.suspend()
    desk.chip.wait(50)
    desk.chip.resume()
    ram = {"atmega32u4": 2560, "at90usb162": 512}[desk.mounted.controller.text]
    free = ram - desk.image.ram_used
    depth = free - desk.chip.ram_untouched(0x100 + desk.image.ram_used)
    assert depth <= AVR.stack_bytes // 2


def test_a_nap_that_bus_and_watchdog_end_together_leaves_the_next_one_whole(desk: Desk) -> None:
    """The watchdog's time may end while the crystal starts; the judge looks at its flag."""
    desk.chip.suspend()
    desk.chip.wait(100)
    for tenth_ms in range(140, 182, 3):
        desk.chip.transient(tenth_ms / 10)
        desk.chip.wait(60)


def milliseconds_at(image: Image) -> int:
    """Return the address of the firmware's count; only GCC's image has names."""
    symbols = ELFFile(io.BytesIO(image.elf)).get_section_by_name(".symtab").iter_symbols()
    (found,) = (s["st_value"] for s in symbols if s.name.startswith("milliseconds"))
    return int(found & 0xFFFF)


@pytest.mark.parametrize("chip", ["atmega32u4", "at90usb162"])
def test_a_minute_of_naps_counts_as_a_minute(chip: str) -> None:
    """Starting the crystal counts too (Atmel 7766 section 7.3); a nap is rounded down to 1 ms."""
    asleep_ms, share = 60_000, 0.005
    mounted, image = square(2, controller=chip), built(chip, "gcc")
    place = milliseconds_at(image)
    with board(image, mounted) as running:
        UsbHost(running).enumerate()
        running.suspend()
        running.wait(100)
        before, began = running.peek(place) | running.peek(place + 1) << 8, running.cycles
        running.wait(asleep_ms)
        after = running.peek(place) | running.peek(place + 1) << 8
        passed = (running.cycles - began) / running.cycles_per_ms
        assert abs(((after - before) & 0xFFFF) - passed) < share * asleep_ms
