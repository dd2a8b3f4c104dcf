"""What has to be true of an RP2040 when a host first sees it, which no emulator asks for.

Written from the datasheet's sections named, not from our port's order. What is wrong is a
complaint, and a complaint fails whatever test runs the board. The rules about a single access are
where it is watched: `blocks.py` (resets), `clocks.py` (muxes, PLLs), `cable.py` (the USB block).
"""

from __future__ import annotations

from collections.abc import Iterator

from rp2040py.peripherals import psm, usb
from rp2040py.peripherals.ssi import (
    SSI_BAUDR,
    SSI_CTRLR0,
    SSI_CTRLR1,
    SSI_SPI_CTRL_R0,
    SSI_SSIENR,
)
from rp2040py.rp2040 import RP2040

FLASH, BOOT2 = 0x10000000, 256
SSI, PSM = 0x18000, 0x40010
FLASH_HZ = 50_000_000
"""The read command 03h of common flash chips, W25Q16JV and W25Q128JV among them (from memory)."""

FRAMES_OF_32, SEND_THEN_RECEIVE = 31 << 16, 3 << 8
READ_03H = 0x03 << 24 | 2 << 8 | 6 << 2
"""SPI_CTRLR0: the command, of 8 bits, then 24 bits of address, all on one line (4.10.13)."""

USB_CLOCK_ON = 1 << 11


def at_attach(chip: RP2040) -> Iterator[str]:
    """Return what is wrong at the moment at which the pull-up is switched on."""
    yield from _core(chip)
    yield from _flash(chip)
    yield from _usb(chip)
    if chip.clocks.usb_ctrl & USB_CLOCK_ON == 0 or chip.clocks.usb_hz != 48e6:
        yield "CLK_USB: not 48 MHz when the host sees the device (section 4.1.2)"
    yield from wdsel(chip)


def wdsel(chip: RP2040) -> Iterator[str]:
    """Section 4.7.4: the watchdog resets what PSM's WDSEL names, and the ROM starts from ROSC.

    The chip maker's own code leaves the oscillators alone (from memory).
    """
    asked = chip.peripherals[PSM].wdsel
    kept = psm.WDSEL_ROSC | psm.WDSEL_XOSC
    if asked | kept != psm.PSM_BITS_MASK:
        yield f"WDSEL {asked:#x}: the watchdog would not reset the whole chip"
    if asked & kept:
        yield f"WDSEL {asked:#x}: the watchdog would stop an oscillator"


def resets_the_core(chip: RP2040) -> bool:
    """Whether the watchdog's end reaches the core and its blocks at all."""
    wanted = psm.WDSEL_PROC0 | psm.WDSEL_RESETS
    return bool(chip.peripherals[PSM].wdsel & wanted == wanted)


def _core(chip: RP2040) -> Iterator[str]:
    if chip.core.vtor != FLASH + BOOT2:
        yield f"VTOR {chip.core.vtor:#x}: the vectors are behind the second stage (section 2.8.1)"


def _flash(chip: RP2040) -> Iterator[str]:
    """Section 4.10.13: what the second stage has left in the SSI."""
    read = chip.peripherals[SSI].read_uint32
    divider = read(SSI_BAUDR)
    if divider < 2 or divider % 2 or chip.clocks.core_hz / divider > FLASH_HZ:
        yield f"SSI: divider {divider} is more than the {FLASH_HZ:g} Hz of command 03h"
    if read(SSI_SSIENR) != 1:
        yield "SSI: it is off"
    if read(SSI_CTRLR0) != FRAMES_OF_32 | SEND_THEN_RECEIVE or read(SSI_CTRLR1) != 0:
        yield "SSI: not one frame of 32 bits, sent and then received"
    if read(SSI_SPI_CTRL_R0) != READ_03H:
        yield "SSI: not the read command that every flash chip has"


def _usb(chip: RP2040) -> Iterator[str]:
    """Sections 4.1.2.8, 4.1.4: the controller on, joined to the pins, told that VBUS is there."""
    pads = chip.usb_ctrl.pads
    if not chip.usb_ctrl.read_uint32(usb.MAIN_CTRL) & usb.CONTROLLER_EN:
        yield "MAIN_CTRL: the controller is off"
    if pads[usb.USB_MUXING] & (usb.TO_PHY | usb.SOFTCON) != usb.TO_PHY | usb.SOFTCON:
        yield "USB_MUXING: the controller is not joined to the pins"
    if pads[usb.USB_PWR] & 0xC != 0xC:
        yield "USB_PWR: nobody has told the controller that the bus has power"
