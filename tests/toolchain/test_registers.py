"""registers.h and the facts of each chip against avr-libc's headers, by the preprocessor."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tests.toolchain.trees import CHIPS

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


def theirs(chip: str, names: list[str], tmp_path: Path) -> dict[str, int]:
    """What avr-libc says of those names, as an object file's constants."""
    source, out = tmp_path / "names.c", tmp_path / "names.o"
    lines = ["#include <avr/io.h>", "#include <avr/interrupt.h>"]
    for name in names:
        lines += [f"#ifdef {name}", f"const unsigned long value_{name} =", f"VALUE({name});", "#endif"]
    # A register expands to a dereferenced address, whose address is a constant again.
    lines.insert(0, "#define VALUE(x) _Generic((x), int: (x), default: (unsigned long)&(x))")
    source.write_text("\n".join(lines).replace("VALUE(", "ADDRESS_OR_NUMBER("))
    command = ["avr-gcc", f"-mmcu={chip}", "-E", "-dM", "-include", "avr/io.h", "-xc", "/dev/null"]
    macros = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    found = dict(re.findall(r"^#define (\w+) (.+)$", macros, re.MULTILINE))
    del out
    return {name: value(found[name]) for name in names if name in found}


def value(text: str) -> int:
    """Return the data-space address, or the number, that a definition of avr-libc stands for."""
    number = int(re.search(r"0[xX][0-9A-Fa-f]+|\d+", text.replace("_SFR_IO8", "").replace("_SFR_MEM8", ""))[0], 0)  # type: ignore[index]
    return number + 0x20 if "_SFR_IO8" in text else number


@pytest.mark.parametrize("chip", CHIPS)
def test_every_register_and_bit_is_where_avr_libc_has_it(chip: str, tmp_path: Path) -> None:
    mine = ours()
    assert len(mine) > 60
    libc = theirs(chip, list(mine), tmp_path)
    wrong = {name: (mine[name], libc[name]) for name in libc if mine[name] != libc[name]}
    assert wrong == {}
    assert set(mine) - set(libc) == NOT_EVERYWHERE[chip]
