"""registers.h and the facts of each chip against avr-libc's headers, by the preprocessor."""

from __future__ import annotations

import functools
import re
import subprocess
from pathlib import Path

import pytest

from tests.toolchain.trees import CHIPS, family_of

AVR_CHIPS = [chip for chip in CHIPS if family_of(chip).name == "avr"]

AVR = Path(__file__).parents[2] / "templates" / "firmware" / "ports" / "avr"
NOT_EVERYWHERE = {
    "atmega16u4": {"REGCR", "PINA", "DDRA", "PORTA"},
    "atmega32u4": {"REGCR", "PINA", "DDRA", "PORTA"},
    "at90usb162": {
        *("UHWCON", "PLLFRQ", "JTD", "PINA", "DDRA", "PORTA"),
        *("PINE", "DDRE", "PORTE", "PINF", "DDRF", "PORTF"),
    },
    "at90usb646": {"REGCR", "PLLFRQ"},
    "at90usb1286": {"REGCR", "PLLFRQ"},
}
"""What registers.h names and a chip lacks; chip.h keeps the port from using it."""


def ours() -> dict[str, int]:
    """Every register's address and every bit's number in registers.h."""
    text = (AVR / "registers.h").read_text()
    names = {}
    for name, value in re.findall(r"^#define (\w+) (\S+)$", text, re.MULTILINE):
        number = re.search(r"0x[0-9A-F]+|^\d+$", value)
        if number:
            names[name.removesuffix("_ADDRESS")] = int(number[0], 0)
    return names


@functools.cache
def libc(chip: str) -> dict[str, int]:
    """Every register's address in data space, and every other plain number, of avr-libc."""
    command = ["avr-gcc", f"-mmcu={chip}", "-E", "-dM", "-include", "avr/io.h", "-xc", "/dev/null"]
    macros = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    found = {}
    pattern = r"^#define (\w+) (?:_SFR_(IO|MEM)8 ?\()?(0[xX][0-9A-Fa-f]+|\d+)\)?$"
    for name, space, number in re.findall(pattern, macros, re.MULTILINE):
        found[name] = int(number, 0) + (0x20 if space == "IO" else 0)
    return found


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_every_register_and_bit_is_where_avr_libc_has_it(chip: str) -> None:
    mine, theirs = ours(), libc(chip)
    assert len(mine) > 60
    wrong = {name: (mine[name], theirs[name]) for name in mine.keys() & theirs.keys()}
    assert {name: pair for name, pair in wrong.items() if pair[0] != pair[1]} == {}
    assert mine.keys() - theirs.keys() == NOT_EVERYWHERE[chip]


def facts(chip: str) -> dict[str, str]:
    text = (AVR / "chips" / f"{chip}.h").read_text()
    return dict(re.findall(r"^#define CHIP_(\w+) (\S+)", text, re.MULTILINE))


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_the_facts_of_each_chip_are_those_of_avr_libc(chip: str) -> None:
    mine, theirs = facts(chip), libc(chip)
    assert int(mine["VECTOR_USB_GENERAL"]) == theirs["USB_GEN_vect_num"]
    assert int(mine["VECTOR_WATCHDOG"]) == theirs["WDT_vect_num"]
    assert int(mine["HAS_JTAG"]) == ("JTD" in theirs)
    assert mine["PADS_REGISTER"] == ("UHWCON" if "UHWCON" in theirs else "REGCR")
    on = 0
    if "UHWCON" in theirs:
        on = 1 << theirs["UVREGE"] | (1 << theirs["UIMOD"] if "UIMOD" in theirs else 0)
    assert int(mine["PADS_ON"], 0) == on
    pads = 1 << theirs["OTGPADE"] if "OTGPADE" in theirs else 0
    assert int(mine["USBCON_PADS"], 0) == pads
    assert ("PLLFRQ" in mine) == ("PLLFRQ" in theirs)
    assert int(mine["PLL_16_MHZ"], 0) == pll_16_mhz(chip, theirs)


def pll_16_mhz(chip: str, theirs: dict[str, int]) -> int:
    """The bits by avr-libc's numbers; which of them, by the datasheets' tables (section 6.11)."""
    if "PINDIV" in theirs:
        return 1 << theirs["PINDIV"]
    names = {"at90usb162": ("PLLP0",), "at90usb646": ("PLLP2", "PLLP1")}
    return sum(1 << theirs[name] for name in names.get(chip, ("PLLP2", "PLLP0")))
