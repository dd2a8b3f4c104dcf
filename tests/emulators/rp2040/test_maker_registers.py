"""The RP2040 port's register addresses and bits against the chip maker's own table.

`data/registers.csv` has the rows of the register headers in the maker's C SDK 2.2.0
(`src/rp2040/hardware_regs`) that this port uses, one a register or field.
"""

from __future__ import annotations

import csv
import functools
import re
from pathlib import Path

import pytest

from matrixgen.resources import resource

HEADER = resource("templates") / "firmware" / "ports" / "rp2040" / "registers.h"
TABLE = Path(__file__).parent / "data" / "registers.csv"

OTHERWISE = {
    "RESETS_DONE": "RESETS_RESET_DONE",
    "CHIP_RESET": "VREG_AND_CHIP_RESET_CHIP_RESET",
    "USB_MUXING": "USB_USB_MUXING",
    "USB_PWR": "USB_USB_PWR",
}
"""Registers whose name in our header is not the maker's, with or without the block's before it."""

NOT_IN_TABLE = {"CHIP_ID"}
"""SYSINFO's, which the copy does not have; rp2040py's map has it (`test_registers.py`)."""

INT = "USB_INTE"
ENDPOINT, BUFFER = "USB_DEVICE_DPRAM_EP1_IN_CONTROL", "USB_DEVICE_DPRAM_EP0_IN_BUFFER_CONTROL"
FIELDS = {
    "RESET_IO_BANK0": ("RESETS_RESET", "IO_BANK0"),
    "RESET_PADS_BANK0": ("RESETS_RESET", "PADS_BANK0"),
    "RESET_PLL_SYS": ("RESETS_RESET", "PLL_SYS"),
    "RESET_PLL_USB": ("RESETS_RESET", "PLL_USB"),
    "RESET_TIMER": ("RESETS_RESET", "TIMER"),
    "RESET_USBCTRL": ("RESETS_RESET", "USBCTRL"),
    "PSM_ROSC": ("PSM_WDSEL", "ROSC"),
    "PSM_XOSC": ("PSM_WDSEL", "XOSC"),
    "CHIP_RESET_HAD_POR": ("VREG_AND_CHIP_RESET_CHIP_RESET", "HAD_POR"),
    "CHIP_RESET_HAD_RUN": ("VREG_AND_CHIP_RESET_CHIP_RESET", "HAD_RUN"),
    "CLK_REF_AUX": ("CLOCKS_CLK_REF_CTRL", "SRC"),
    "CLK_REF_XOSC": ("CLOCKS_CLK_REF_CTRL", "SRC"),
    "CLK_SYS_AUX": ("CLOCKS_CLK_SYS_CTRL", "SRC"),
    "CLK_SYS_PLL_USB": ("CLOCKS_CLK_SYS_CTRL", "AUXSRC"),
    "CLK_USB_ENABLE": ("CLOCKS_CLK_USB_CTRL", "ENABLE"),
    "SLEEP_EN1_WATCHDOG": ("CLOCKS_SLEEP_EN1", "CLK_SYS_WATCHDOG"),
    "SLEEP_EN1_USB": ("CLOCKS_SLEEP_EN1", "CLK_USB_USBCTRL", "CLK_SYS_USBCTRL"),
    "SLEEP_EN1_TIMER": ("CLOCKS_SLEEP_EN1", "CLK_SYS_TIMER"),
    "XOSC_STABLE": ("XOSC_STATUS", "STABLE"),
    "PLL_CS_LOCK": ("PLL_CS", "LOCK"),
    "PLL_PWR_PD": ("PLL_PWR", "PD"),
    "PLL_PWR_POSTDIVPD": ("PLL_PWR", "POSTDIVPD"),
    "PLL_PWR_VCOPD": ("PLL_PWR", "VCOPD"),
    "WATCHDOG_ENABLE": ("WATCHDOG_CTRL", "ENABLE"),
    "WATCHDOG_PAUSE_FOR_DEBUGGER": ("WATCHDOG_CTRL", "PAUSE_DBG1", "PAUSE_DBG0", "PAUSE_JTAG"),
    "WATCHDOG_TICK_ENABLE": ("WATCHDOG_TICK", "ENABLE"),
    "TIMER_ALARM_0": ("TIMER_INTE", "ALARM_0"),
    "FUNCTION_SIO": ("IO_BANK0_GPIO0_CTRL", "FUNCSEL"),
    "PAD_SCHMITT": ("PADS_BANK0_GPIO0", "SCHMITT"),
    "PAD_PULL_DOWN": ("PADS_BANK0_GPIO0", "PDE"),
    "PAD_PULL_UP": ("PADS_BANK0_GPIO0", "PUE"),
    "PAD_DRIVE_4_MA": ("PADS_BANK0_GPIO0", "DRIVE"),
    "PAD_INPUT": ("PADS_BANK0_GPIO0", "IE"),
    "USB_ENDPOINT_ENABLE": (ENDPOINT, "ENABLE"),
    "USB_ENDPOINT_STATUS_PER_BUFFER": (ENDPOINT, "INTERRUPT_PER_BUFF"),
    "USB_ENDPOINT_INTERRUPT": (ENDPOINT, "ENDPOINT_TYPE"),
    "USB_ENDPOINT_BULK": (ENDPOINT, "ENDPOINT_TYPE"),
    "USB_BUFFER_FULL": (BUFFER, "FULL_0"),
    "USB_BUFFER_DATA1": (BUFFER, "PID_0"),
    "USB_BUFFER_STALL": (BUFFER, "STALL"),
    "USB_BUFFER_AVAILABLE": (BUFFER, "AVAILABLE_0"),
    "USB_BUFFER_LENGTH": (BUFFER, "LENGTH_0"),
    "USB_CONTROLLER_EN": ("USB_MAIN_CTRL", "CONTROLLER_EN"),
    "USB_SIE_EP0_INT_1BUF": ("USB_SIE_CTRL", "EP0_INT_1BUF"),
    "USB_SIE_PULLUP_EN": ("USB_SIE_CTRL", "PULLUP_EN"),
    "USB_SIE_RESUME": ("USB_SIE_CTRL", "RESUME"),
    "USB_STATUS_BUS_RESET": ("USB_SIE_STATUS", "BUS_RESET"),
    "USB_STATUS_SETUP_REC": ("USB_SIE_STATUS", "SETUP_REC"),
    "USB_STATUS_RESUME": ("USB_SIE_STATUS", "RESUME"),
    "USB_STATUS_SUSPENDED": ("USB_SIE_STATUS", "SUSPENDED"),
    "USB_STALL_EP0_BOTH": ("USB_EP_STALL_ARM", "EP0_OUT", "EP0_IN"),
    "USB_MUXING_SOFTCON": ("USB_USB_MUXING", "SOFTCON"),
    "USB_MUXING_TO_PHY": ("USB_USB_MUXING", "TO_PHY"),
    "USB_PWR_VBUS_DETECT_OVERRIDE": ("USB_USB_PWR", "VBUS_DETECT_OVERRIDE_EN"),
    "USB_PWR_VBUS_DETECT": ("USB_USB_PWR", "VBUS_DETECT"),
    "USB_SOF_COUNT": ("USB_SOF_RD", "COUNT"),
    "USB_INT_SOF": (INT, "DEV_SOF"),
    "USB_INT_SETUP": (INT, "SETUP_REQ"),
    "USB_INT_RESUME": (INT, "DEV_RESUME_FROM_HOST"),
    "USB_INT_BUS_RESET": (INT, "BUS_RESET"),
}
"""The field, or fields of one register, that each mask of our header is in."""

NO_FIELDS = {
    *("CLK_REF_ROSC", "CLK_SYS_PLL_SYS"),  # 0
    *("TIMER_IRQ_0", "USBCTRL_IRQ"),  # numbers of interrupts, not of bits in a block
    *("CHIP_REVISION_B2", "USB_MEMORY_BYTES", "USB_MEMORY", "PSM_ALL", "XOSC_ON_1_TO_15_MHZ"),
}


@functools.cache
def table() -> tuple[dict[str, int], dict[tuple[str, str], int]]:
    """Return each register's address, and each field's mask."""
    addresses, masks = {}, {}
    with TABLE.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            register = row["register"]
            if not row["field"]:
                addresses[register] = int(row["base"], 16) + int(row["offset"], 16)
            else:
                low, high = int(row["lsb"]), int(row["msb"])
                masks[register, row["field"]] = (1 << high + 1) - (1 << low)
    return addresses, masks


def registers() -> dict[str, int]:
    found = re.findall(r"^#define (\w+) REGISTER\(0x([0-9A-F]+)u\)", HEADER.read_text(), re.M)
    return {name: int(value, 16) for name, value in found}


def masks() -> dict[str, int]:
    pattern = r"^#define (\w+) \(?(0x[0-9A-F]+|\d+)u(?: << (\d+))?\)?(?:$| +/\*)"
    found = re.findall(pattern, HEADER.read_text(), re.M)
    return {name: int(value, 0) << int(shift or 0) for name, value, shift in found}


def test_every_register_is_where_the_maker_has_it() -> None:
    theirs, _ = table()
    ours = registers()
    assert len(ours) > 40
    for name in ours.keys() - NOT_IN_TABLE:
        known = OTHERWISE.get(name, name)
        (found,) = {one for one in (known, f"CLOCKS_{known}", f"M0PLUS_{known}") if one in theirs}
        assert ours[name] == theirs[found], name


def test_every_mask_is_of_a_field() -> None:
    assert masks().keys() - NO_FIELDS == FIELDS.keys()


@pytest.mark.parametrize("name", FIELDS)
def test_every_bit_is_where_the_maker_has_it(name: str) -> None:
    """A field of one bit is that bit; a value lies within its field."""
    (register, *fields), ours = FIELDS[name], masks()[name]
    theirs = [table()[1][register, field] for field in fields]
    assert ours and ours & ~sum(theirs) == 0
    assert all(ours & mask for mask in theirs)


def test_a_pll_s_words_follow_each_other() -> None:
    theirs, fields = table()
    words = [theirs[name] for name in ("PLL_CS", "PLL_PWR", "PLL_FBDIV_INT", "PLL_PRIM")]
    assert [word - words[0] for word in words] == [0, 4, 8, 12]
    dividers = [fields["PLL_PRIM", name] for name in ("POSTDIV1", "POSTDIV2")]
    assert dividers == [7 << 16, 7 << 12]
    places = re.findall(
        r"#define PLL_\w+ \(\(volatile struct pll \*\)0x(\w+)u\)", HEADER.read_text()
    )
    assert int(places[1], 16) - int(places[0], 16) == 0x4000 and words[0] in (
        int(place, 16) for place in places
    )
