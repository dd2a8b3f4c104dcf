"""What others say of the chips: modm-devices' data, and avr-libc's headers.

modm-devices (from PyPI, a test dependency) describes the ATmega16U4/32U4, the ATmega8U2/16U2/32U2
and the RP2040. It has no AT90USB chip. The AT90USB162's pins are those of its ATmega sibling. For
the memories of the AT90USB chips, and the pins of the large ones, the figures below were copied
from avr-libc 2.0 (Debian `avr-libc`): `iousb162.h`, `iousb646.h`, `iousb1286.h` (FLASHEND + 1,
RAMEND - RAMSTART + 1) and `iousbxx6_7.h` (PA0..PF7). Where the headers are on the machine, a test
reads them again.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import modm_devices
from modm_devices.parser import DeviceParser

DATA = Path(modm_devices.__file__).parent / "resources" / "devices"
HEADERS = Path("/usr/lib/avr/include/avr")


@dataclass(frozen=True)
class ChipFacts:
    pins: frozenset[str]
    flash_bytes: int | None
    ram_bytes: int


FROM_HEADERS = {
    "AT90USB162": ("iousb162.h", 0x3FFF + 1, 0x2FF - 0x100 + 1),
    "AT90USB646": ("iousb646.h", 0xFFFF + 1, 0x10FF - 0x100 + 1),
    "AT90USB1286": ("iousb1286.h", 0x1FFFF + 1, 0x20FF - 0x100 + 1),
}
PINS_OF_LARGE_AT90USB = frozenset(f"P{port}{bit}" for port in "ABCDEF" for bit in range(8))


def properties(file: str, part: str) -> dict[str, Any]:
    devices = DeviceParser().parse(str(DATA / file)).get_devices()
    return next(device.properties for device in devices if device.partname.startswith(part))


def driver(of: dict[str, Any], name: str) -> dict[str, Any]:
    return next(driver for driver in of["driver"] if driver["name"] == name)


def memory(of: dict[str, Any], name: str) -> int:
    return next(int(m["size"]) for m in driver(of, "core")["memory"] if m["name"] == name)


def avr_pins(of: dict[str, Any]) -> frozenset[str]:
    return frozenset(f"P{pin['port'].upper()}{pin['pin']}" for pin in driver(of, "gpio")["gpio"])


@cache
def facts_of(chip: str) -> ChipFacts:
    if chip in ("ATmega16U4", "ATmega32U4"):
        found = properties("avr/atmega-16_32-u4_u4rc.xml", chip.lower() + "-")
        return ChipFacts(avr_pins(found), memory(found, "flash"), memory(found, "ram"))
    if chip == "RP2040":
        found = properties("rp/rp2040.xml", "rp2040")
        bank = [pin for pin in driver(found, "gpio")["gpio"] if pin["port"] == "bank0"]
        ram = sum(memory(found, name) for name in ("ram", "core0", "core1"))
        return ChipFacts(frozenset(f"GPIO{pin['name']}" for pin in bank), None, ram)
    _, flash, ram = FROM_HEADERS[chip]
    if chip == "AT90USB162":
        sibling = properties("avr/atmega-8_16_32-u2.xml", "atmega16u2-")
        return ChipFacts(avr_pins(sibling), flash, ram)
    return ChipFacts(PINS_OF_LARGE_AT90USB, flash, ram)


def header_sizes(name: str) -> tuple[int, int]:
    """Flash and RAM in bytes by an avr-libc header."""
    text = (HEADERS / name).read_text(encoding="utf-8", errors="replace")
    found = dict(re.findall(r"#define (FLASHEND|RAMEND|RAMSTART)\s+\(?(0x[0-9A-Fa-f]+)", text))
    values = {word: int(value, 16) for word, value in found.items()}
    return values["FLASHEND"] + 1, values["RAMEND"] - values["RAMSTART"] + 1
