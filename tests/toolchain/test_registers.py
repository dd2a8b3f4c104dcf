"""registers.h and the facts of each chip against avr-libc's headers, by the preprocessor."""

from __future__ import annotations

import functools
import re
import subprocess
from pathlib import Path

import pytest

from matrixgen.bench.serial import self_report
from matrixgen.families import FAMILIES
from tests.toolchain.trees import CHIPS, family_of

AVR_CHIPS = [chip for chip in CHIPS if family_of(chip).name == "avr"]

AVR = Path(__file__).parents[2] / "templates" / "firmware" / "ports" / "avr"
ONLY_U4 = {"TIMSK4", "TCCR4A", "TCCR4C", "DIDR2"}
CLOCK_SWITCH = {"CLKS", "RCE", "EXTE", "EXSUT1", "EXTON"}
ONLY_1286 = {"TIMSK2", "TCCR2A", "PINA", "DDRA", "PORTA"}
NOT_ON_162 = {
    *("UHWCON", "PLLFRQ", "JTD", "PINE", "DDRE", "PORTE", "PINF", "DDRF", "PORTF"),
    *("TIMSK3", "TCCR3A", "TWCR", "ADCSRA", "DIDR0", "DIDR1"),
}
NOT_EVERYWHERE = {
    "atmega16u4": {"REGCR", *ONLY_1286},
    "atmega32u4": {"REGCR", *ONLY_1286},
    "at90usb162": NOT_ON_162 | ONLY_U4 | ONLY_1286,
    "at90usb646": {"REGCR", "PLLFRQ", "UCSR1D", *ONLY_U4, *CLOCK_SWITCH},
    "at90usb1286": {"REGCR", "PLLFRQ", "UCSR1D", *ONLY_U4, *CLOCK_SWITCH},
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
    pattern = r"^#define (\w+) (?:_SFR_(IO|MEM)8 ?)?\(?(0[xX][0-9A-Fa-f]+|\d+)\)?$"
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
    assert int(mine["VECTORS"]) == 1 + max(
        number for name, number in theirs.items() if name.endswith("_vect_num")
    )
    assert int(mine["HAS_JTAG"]) == ("JTD" in theirs)
    assert mine["PADS_REGISTER"] == ("UHWCON" if "UHWCON" in theirs else "REGCR")
    on = 0
    if "UHWCON" in theirs:
        on = 1 << theirs["UVREGE"] | (1 << theirs["UIMOD"] if "UIMOD" in theirs else 0)
    assert int(mine["PADS_ON"], 0) == on
    pads = 1 << theirs["OTGPADE"] if "OTGPADE" in theirs else 0
    assert int(mine["USBCON_PADS"], 0) == pads
    assert ("PLLFRQ" in mine) == ("PLLFRQ" in theirs)
    for name in {"CLKSEL0", "CLKSEL1", "CLKSTA"} & mine.keys():
        assert mine[name] == f"REGISTER({theirs[name]:#04X})".replace("0X", "0x")
    assert int(mine["PLL_16_MHZ"], 0) == pll_16_mhz(chip, theirs)


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_the_pll_is_set_for_8_mhz_by_avr_libc_s_bits(chip: str) -> None:
    """AT90USB646 and 1286: PLLP 011 (7593 section 6.11). The others take 8 MHz as it is."""
    theirs = libc(chip)
    bits = ("PLLP1", "PLLP0") if "PLLP2" in theirs and "PLLP1" in theirs else ()
    bits = () if chip == "at90usb162" else bits
    assert int(facts(chip)["PLL_8_MHZ"], 0) == sum(1 << theirs[name] for name in bits)


def pll_16_mhz(chip: str, theirs: dict[str, int]) -> int:
    """The bits by avr-libc's numbers; which of them, by the datasheets' tables (section 6.11)."""
    if "PINDIV" in theirs:
        return 1 << theirs["PINDIV"]
    names = {"at90usb162": ("PLLP0",), "at90usb646": ("PLLP2", "PLLP1")}
    return sum(1 << theirs[name] for name in names.get(chip, ("PLLP2", "PLLP0")))


LEAVINGS = re.compile(
    r"TIMSK\d|TCCR[02-9]A|TCCR4C|EIMSK|PCICR|UCSR1[BD]|SPCR|TWCR|ADCSRA|PRR\d|DIDR\d|SPMCSR|EECR"
)
"""Registers that switch a part on, let it interrupt or give it a pin, but for those set up anew."""


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_whatever_a_boot_loader_may_have_left_on_is_switched_off(chip: str) -> None:
    texts = [(AVR / "leavings.c").read_text(), (AVR / "chips" / f"{chip}.h").read_text()]
    cleared = {name for text in texts for name in re.findall(r"(\w+)_ADDRESS\b", text)} - {"MCUCR"}
    assert cleared == {name for name in libc(chip) if LEAVINGS.fullmatch(name)}


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_the_signature_and_page_that_loading_needs_are_those_of_avr_libc(chip: str) -> None:
    theirs, mine = libc(chip), FAMILIES["avr"].flash_of(chip)
    assert mine is not None
    assert list(mine.signature) == [theirs[f"SIGNATURE_{number}"] for number in range(3)]
    assert mine.page_bytes == theirs["SPM_PAGESIZE"]


def fuse_bits(chip: str) -> dict[str, int]:
    """Each fuse's bit, of avr-libc: `FUSE_WDTON` is all ones but that one."""
    command = ["avr-gcc", f"-mmcu={chip}", "-E", "-dM", "-include", "avr/io.h", "-xc", "/dev/null"]
    macros = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    found = re.findall(r"^#define FUSE_(\w+) .*~_BV\((\d)\)", macros, re.MULTILINE)
    return {name: 1 << int(number) for name, number in found}


@pytest.mark.parametrize("chip", AVR_CHIPS)
def test_the_fuses_that_probe_warns_of_are_those_of_avr_libc(chip: str) -> None:
    theirs = fuse_bits(chip)
    assert (theirs["WDTON"], theirs["BOOTRST"]) == (self_report.WDTON, self_report.BOOTRST)
    assert [theirs["BOOTSZ0"], theirs["BOOTSZ1"]] == [1 << 1, 1 << 2]
    assert sum(theirs[f"CKSEL{n}"] for n in range(4)) == self_report.CLOCK_FUSES


def test_fuses_and_lock_bits_are_read_where_avr_libc_reads_them() -> None:
    """`avr/boot.h`: GET_LOW_FUSE_BITS and so on."""
    command = ["avr-gcc", "-mmcu=atmega32u4", "-E", "-dM", "-include", "avr/boot.h"]
    macros = subprocess.run(
        [*command, "-xc", "/dev/null"], check=True, capture_output=True, text=True
    ).stdout
    theirs = re.findall(r"^#define GET_(LOW|HIGH|EXTENDED|LOCK)\w*_BITS \((0x\d+)\)", macros, re.M)
    text = (AVR / "self_report.c").read_text()
    fuses = re.findall(r"\{OF_LOCK_AND_FUSES, (\d)\}, /\* (\w+)", text)
    lock = re.findall(r"lock\[\] = \{\{OF_LOCK_AND_FUSES, (\d)\}\}", text)
    ours = {name.upper(): int(address) for address, name in fuses} | {"LOCK": int(lock[0])}
    assert ours == {name: int(address, 16) for name, address in theirs}
