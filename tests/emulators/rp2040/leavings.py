"""What another program leaves in an RP2040 that it does not reset, as a debugger's start does not.

The boot ROM itself leaves most blocks in reset. Addresses and bits: datasheet sections 2.14 to
2.19, 4.1 and 4.6.
"""

from __future__ import annotations

from rp2040py.peripherals import timer, usb
from rp2040py.rp2040 import RP2040

OTHER_RATES = {0x40028: (133, 6 << 16 | 2 << 12), 0x4002C: (120, 6 << 16 | 5 << 12)}
"""Multiplier and dividers of PLL_SYS and PLL_USB: 133 MHz and 48 MHz, both otherwise than ours."""

LONG_AGO_NS = 10e9
TIMER_US = 5_000_000
LOW_VOLTAGE, NO_PULL = 1, 0
IO_BANK0, PADS_BANK0 = 0x40014, 0x4001C
INTERRUPT_ENABLES = range(0x100, 0x110, 4)
"""PROC0_INTE of IO_BANK0: four bits a pin."""

INVERTED_PWM = 3 << 16 | 3 << 12 | 3 << 8 | 4
"""GPIO_CTRL with input high, output enabled, output high, and PWM's function."""


def leave(chip: RP2040) -> None:
    """Let every block that the keyboard uses run, set up for something else."""
    chip.resets.held = 0
    _clocks(chip)
    _pins(chip)
    _timer(chip)
    _usb(chip)


def still_there(chip: RP2040) -> list[str]:
    """Return what is left of it in registers that the keyboard itself does not use."""
    found = {
        "VOLTAGE_SELECT": chip.peripherals[PADS_BANK0].block.read_uint32(0),
        "INTE of pins": sum(map(chip.peripherals[IO_BANK0].block.read_uint32, INTERRUPT_ENABLES)),
        "INTE of the timer": chip.timer.read_uint32(timer.INTE),
        "ARMED": chip.timer.read_uint32(timer.ARMED),
    }
    return [name for name, value in found.items() if value]


def _clocks(chip: RP2040) -> None:
    then = chip.clock.nanos - LONG_AGO_NS
    chip.xosc._enabled, chip.xosc.since = True, then
    for place, (multiplier, dividers) in OTHER_RATES.items():
        pll = chip.peripherals[place].block
        pll.words, pll.since = {0x0: 1, 0x4: 0, 0x8: multiplier, 0xC: dividers}, then
    chip.clocks.ref_ctrl, chip.clocks.sys_ctrl, chip.clocks.usb_ctrl = 1, 1, 1 << 11
    chip.clocks.changed()


def _pins(chip: RP2040) -> None:
    io, pads = (chip.peripherals[place].block for place in (IO_BANK0, PADS_BANK0))
    for pin in range(30):
        io.write_uint32(8 * pin + 4, INVERTED_PWM)
        pads.write_uint32(4 * pin + 4, NO_PULL)
    for offset in INTERRUPT_ENABLES:
        io.write_uint32(offset, 0x11111111)
    pads.write_uint32(0, LOW_VOLTAGE)
    chip.sio.gpio_output_enable = chip.sio.gpio_value = (1 << 30) - 1


def _timer(chip: RP2040) -> None:
    chip.timer._epoch_nanos = chip.clock.nanos - TIMER_US * 1000
    chip.timer.write_uint32(timer.ALARM3, 0)
    chip.timer.write_uint32(timer.INTE, 0xF)


def _usb(chip: RP2040) -> None:
    cable = chip.usb_ctrl
    cable.write_uint32(usb.MAIN_CTRL, usb.CONTROLLER_EN)
    cable.write_uint32(usb.ADDR_ENDP, 9)
    cable._sie_ctrl = usb.SIE_CTRL_PULLUP_EN | usb.SIE_CTRL_EP0_INT_1BUF
