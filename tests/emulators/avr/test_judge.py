"""The judges of the AVR harness: what the datasheets ask for passes, and each of their rules bites.

Registers are written here as a program would write them, with no firmware on the chip: the right
order, which nobody finds fault with, and then the same with one thing wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from matrixgen.families import FAMILIES
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard
from tests.emulators.avr.leavings import Leavings
from tests.emulators.keyboards import profile

# Data-space addresses: Atmel 7766 section 31.
PLLCSR, PLLFRQ, SMCR, WDTCSR, CLKPR = 0x49, 0x52, 0x53, 0x60, 0x61
MCUSR, MCUCR, UHWCON, USBCON = 0x54, 0x55, 0xD7, 0xD8
UDCON, UDIEN, UDADDR, UEINTX, UENUM, UERST = 0xE0, 0xE2, 0xE3, 0xE8, 0xE9, 0xEA
UECONX, UECFG0X, UECFG1X, UESTA0X, UEDATX = 0xEB, 0xEC, 0xED, 0xEE, 0xF1

Step = tuple[int, int]
READ, WAIT_US = -1, -2
"""Steps that are no writes: READ an address, let some time pass."""

FREE_JTAG = ((MCUCR, 0x80), (MCUCR, 0x80))
UNDIVIDE = ((CLKPR, 0x80), (CLKPR, 0))
PLL = ((PLLCSR, 0x10), (PLLFRQ, 0x04), (PLLCSR, 0x12), (WAIT_US, 200))
ATTACH = (*FREE_JTAG, *UNDIVIDE, (UHWCON, 1), (USBCON, 0xB0), *PLL, (USBCON, 0x90), (UDCON, 0))


def opened(number: int, kind: int, size: int) -> tuple[Step, ...]:
    """Activate an endpoint: 7766 section 22.7."""
    return (
        *((UENUM, number), (UECONX, 0x09), (UECFG0X, kind), (UECFG1X, size)),
        *((READ, UESTA0X), (UERST, 1 << number), (UERST, 0)),
    )


CONTROL, FIRST, SECOND = opened(0, 0, 0x32), opened(1, 0xC1, 0x32), opened(2, 0xC1, 0x12)
ADDRESS = ((UDADDR, 5), (UDADDR, 0x85))
GIVE = ((UENUM, 1), (UEINTX, 0xFA), (UEDATX, 7), (UEINTX, 0x7B))
DEVICE = (*ATTACH, *CONTROL, *ADDRESS, *FIRST)
WATCHDOG_OFF = ((WDTCSR, 0x18), (WDTCSR, 0))


ENDLESS_JUMP = bytes.fromhex("ffcf")
FEEDS = bytes.fromhex("a895 fecf")
"""`wdr` for ever."""
SLEEPS = bytes.fromhex("7894 8895 fecf")
"""`sei`, then `sleep` for ever."""


@contextmanager
def bare(program: bytes = FEEDS, leavings: Leavings | None = None) -> Iterator[AvrBoard]:
    """Return a chip with a program that does nothing; `leavings` is what a boot loader left."""
    image = Image(FAMILIES["avr"], b"", program, 0)
    running = AvrBoard(image, profile("atmega32u4"), leavings or {})
    yield running
    running.close()


def done(running: AvrBoard, steps: tuple[Step, ...]) -> list[str]:
    """Do steps one after the other, two cycles each; return what the judges found."""
    for what, value in steps:
        if what == READ:
            running.read(value)
        elif what == WAIT_US:
            running.step(value * 16)
        else:
            running.step(2)
            running.write(what, value)
    return running.findings


def test_nobody_finds_fault_with_the_right_order() -> None:
    with bare() as running:
        assert done(running, (*WATCHDOG_OFF, *DEVICE, *SECOND, *GIVE)) == []


def without(steps: tuple[Step, ...], *gone: Step) -> tuple[Step, ...]:
    assert set(gone) <= set(steps)
    return tuple(step for step in steps if step not in gone)


def instead(steps: tuple[Step, ...], one: Step, *others: Step) -> tuple[Step, ...]:
    place = steps.index(one)
    return (*steps[:place], *others, *steps[place + 1 :])


WRONG = {
    "memory is given out in growing order": (*ATTACH, *CONTROL, *ADDRESS, *SECOND, *FIRST),
    "moves that of endpoint 2": (*DEVICE, *SECOND, *FIRST),
    "without ALLOC": (*ATTACH, *CONTROL, *ADDRESS, (UENUM, 1), (UECONX, 9), *GIVE),
    "before CFGOK was read": (*without(DEVICE, (READ, UESTA0X)), *GIVE),
    "while UERST holds it in reset": (*DEVICE, (UERST, 2), *GIVE),
    "without EPEN": (*DEVICE, (UENUM, 1), (UECONX, 0), *GIVE),
    "UECFG0X: a bit that is reserved": (*ATTACH, *opened(0, 0x02, 0x32)),
    "UECFG1X: a bit that is reserved": (*ATTACH, *opened(0, 0, 0x33)),
    "ALLOC before EPEN": (*ATTACH, *without(CONTROL, (UECONX, 9))),
    "while ADDEN is clear": (*without(DEVICE, (UDADDR, 0x85)), *GIVE),
    "ADDEN comes with the address": without(DEVICE, (UDADDR, 5)),
    "before the bank is the program's": (*DEVICE, *without(GIVE, (UEINTX, 0xFA))),
    "or after": (*DEVICE, *GIVE, (UEDATX, 7)),
    "more bytes than its bank": (*DEVICE, *instead(GIVE, (UEDATX, 7), *((UEDATX, 7),) * 65)),
    "FIFOCON is cleared without TXINI": (*DEVICE, (UENUM, 1), (UEINTX, 0x7B)),
    "PLLFRQ is written while": instead(DEVICE, (UDCON, 0), (PLLFRQ, 4)),
    "does not make 48 MHz": without(DEVICE, (PLLFRQ, 4)),
    "let go before PLOCK": without(DEVICE, (WAIT_US, 200)),
    "before the pads' regulator": without(DEVICE, (UHWCON, 1)),
    "without the VBUS pad": instead(DEVICE, (USBCON, 0x90), (USBCON, 0x80)),
    "CLKPR: not within": (*DEVICE, (CLKPR, 0x80), (WAIT_US, 1), (CLKPR, 0)),
    "WDTCSR: not within": ((WDTCSR, 0x18), (WAIT_US, 1), (WDTCSR, 0x08), (WDTCSR, 0)),
    "unlocked, and not written": ((WDTCSR, 0x18), (WAIT_US, 1)),
    "the watchdog stays on": ((MCUSR, 8), *WATCHDOG_OFF),
    "JTAG still has": without(DEVICE, (MCUCR, 0x80)),
    "stops before FRZCLK": (*DEVICE, (PLLCSR, 0)),
    "the block is off or its clock frozen": (*DEVICE, (USBCON, 0xB0), *GIVE),
    "not so much memory": (*DEVICE, *opened(2, 0xC1, 0x72)),
}


@pytest.mark.parametrize("words", WRONG)
def test_what_the_datasheet_forbids_is_found(words: str) -> None:
    with bare() as running:
        found = done(running, WRONG[words])
        assert any(words in finding for finding in found), found


@pytest.mark.parametrize(
    "words, steps",
    {
        "another time, and": ((WDTCSR, 0x18), (WDTCSR, 0x0C)),
        "turned off, and": ((WDTCSR, 0x18), (WDTCSR, 0x08), *WATCHDOG_OFF),
    }.items(),
)
def test_a_watchdog_that_is_changed_and_was_not_reset_before_is_found(
    words: str, steps: tuple[Step, ...]
) -> None:
    with bare(ENDLESS_JUMP) as running:
        found = done(running, steps)
        assert any(words in finding for finding in found), found
    with bare() as running:
        assert done(running, steps) == []


LEFT_ON = {USBCON: 0x80, UDCON: 0}
SWITCHED_OFF = ((USBCON, 0), (WAIT_US, 4))


@pytest.mark.parametrize(
    "words, steps",
    {
        "goes on as a boot loader left it": DEVICE,
        "before the host has seen it go": ((USBCON, 0), *DEVICE),
    }.items(),
)
def test_a_block_that_was_left_on_and_is_not_switched_off_is_found(
    words: str, steps: tuple[Step, ...]
) -> None:
    with bare(leavings=LEFT_ON) as running:
        found = done(running, steps)
        assert any(words in finding for finding in found), found
    with bare(leavings=LEFT_ON) as running:
        assert done(running, (*SWITCHED_OFF, *DEVICE)) == []


SMCR_POWER_DOWN, WAKE_BY_BUS, WAKE_BY_WATCHDOG = (SMCR, 0x05), (UDIEN, 0x10), (WDTCSR, 0x40)
ASLEEP = (USBCON, 0xB0), SMCR_POWER_DOWN, WAKE_BY_BUS, WAKE_BY_WATCHDOG
WRONG_ASLEEP = {
    "SE is clear": instead(ASLEEP, SMCR_POWER_DOWN, (SMCR, 0x04)),
    "power-down is not chosen": instead(ASLEEP, SMCR_POWER_DOWN, (SMCR, 0x01)),
    "the PLL is on": (*PLL, *ASLEEP),
    "WAKEUPE is clear": without(ASLEEP, WAKE_BY_BUS),
    "RMWKUP is set": (*ASLEEP, (UDCON, 0x02)),
    "WDIE is clear": without(ASLEEP, WAKE_BY_WATCHDOG),
}


def asleep(steps: tuple[Step, ...]) -> list[str]:
    """Write registers, and then let a chip sleep; return what the judges found."""
    with bare(SLEEPS) as running:
        running.write(UHWCON, 1)
        for address, value in steps:
            if address >= 0:
                running.write(address, value)
        running.step(100)
        return [finding for finding in running.findings if finding.startswith("sleep")]


def test_nobody_finds_fault_with_a_nap_that_is_prepared() -> None:
    assert asleep(ASLEEP) == []


@pytest.mark.parametrize("words", WRONG_ASLEEP)
def test_a_nap_that_is_not_prepared_is_found(words: str) -> None:
    (finding,) = asleep(WRONG_ASLEEP[words])
    assert words in finding
