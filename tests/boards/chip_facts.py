"""What others say of the chips: modm-devices' data, avr-libc's headers, and the makers' SDKs.

modm-devices (from PyPI, a test dependency) describes the AVR chips but the AT90USB, the RP2040, the
STM32, the SAMD21 and the nRF52840. Two traps: its `gpio` list of the nRF52840 runs to P1.31, which
the package does not have, so its package's own list is taken; and its RP2350 has no pins and the
memory of the RP2040, so it is not taken at all.

The AT90USB162's pins are those of its ATmega sibling. For the memories of the AT90USB chips, and
the pins of the large ones, the figures below were copied from avr-libc 2.0 (Debian `avr-libc`):
`iousb162.h`, `iousb646.h`, `iousb1286.h` (FLASHEND + 1, RAMEND - RAMSTART + 1) and `iousbxx6_7.h`
(PA0..PF7). Where the headers are on the machine, a test reads them again.

Chips that neither has are in `data/pins.csv`, which names the source of each row. Their memories:
RP2350 from its SDK's address map (0x20000000..0x20081FFF), CH552 from its manual V1F, sections 1
and 2; of the ESP32 ones nothing was at hand.
"""

from __future__ import annotations

import csv
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
    """Pins that can be a GPIO, and memories; None where nothing is known, or it is outside."""

    pins: frozenset[str]
    flash_bytes: int | None
    ram_bytes: int | None


MODM_FILES = {
    "ATmega16U4": "avr/atmega-16_32-u4_u4rc.xml",
    "ATmega32U4": "avr/atmega-16_32-u4_u4rc.xml",
    "ATmega32U2": "avr/atmega-8_16_32-u2.xml",
    "STM32F072CB": "stm32/stm32f0-71_72_78.xml",
    "STM32F103C8": "stm32/stm32f1-01_02_03-8_b.xml",
    "STM32F401CC": "stm32/stm32f4-01_11.xml",
    "STM32F411CE": "stm32/stm32f4-01_11.xml",
    "SAMD21G18A": "sam/samd21.xml",
    "nRF52840": "nrf/nrf52820_840.xml",
}
PACKAGES = {
    "STM32F072CB": ("stm32f072cbu6", "UFQFPN48"),
    "STM32F103C8": ("stm32f103c8t6", "LQFP48"),
    "STM32F401CC": ("stm32f401ccu6", "UFQFPN48"),
    "STM32F411CE": ("stm32f411ceu6", "UFQFPN48"),
    "nRF52840": ("nrf52840-qiaa", "aQFN73"),
}
"""The chips whose package modm-devices describes pad by pad: part number and package."""

IS_GPIO = re.compile(r"P[A-H]\d+|P\d\.\d+|GPIO\d+").fullmatch

MEMORIES = {"RP2350A": (None, 0x20082000 - 0x20000000), "CH552T": (14336 + 2048, 256 + 1024)}

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


def names(of: dict[str, Any]) -> set[str]:
    return {memory["name"] for memory in driver(of, "core")["memory"]}


def memory(of: dict[str, Any], name: str) -> int:
    return next(int(m["size"]) for m in driver(of, "core")["memory"] if m["name"] == name)


def gpio_pins(of: dict[str, Any]) -> frozenset[str]:
    return frozenset(f"P{pin['port'].upper()}{pin['pin']}" for pin in driver(of, "gpio")["gpio"])


def pads(chip: str) -> dict[str, str]:
    """What is on each pad of a chip's package, by the pad's number or place."""
    part, package = PACKAGES[chip]
    found = driver(properties(MODM_FILES[chip], part), "gpio")["package"]
    listed = next(one for one in found if one["name"] == package)["pin"]
    return {pin["position"]: re.split(r" ?- ?(?=\w)|/", pin["name"])[0] for pin in listed}


@cache
def table(name: str = "pins.csv") -> tuple[dict[str, str], ...]:
    """The rows of a table of `data/`."""
    with (Path(__file__).parent / "data" / name).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


@cache
def facts_of(chip: str) -> ChipFacts:
    if chip in MODM_FILES:
        return _of_modm(chip)
    if chip == "RP2040":
        return _of_rp2040()
    if chip in FROM_HEADERS:
        _, flash, ram = FROM_HEADERS[chip]
        sibling = properties("avr/atmega-8_16_32-u2.xml", "atmega16u2-")
        small = chip == "AT90USB162"
        return ChipFacts(gpio_pins(sibling) if small else PINS_OF_LARGE_AT90USB, flash, ram)
    named = frozenset(row["pin"] for row in table() if row["mcu"] == chip)
    return ChipFacts(frozenset(filter(IS_GPIO, named)), *MEMORIES.get(chip, (None, None)))


def _of_modm(chip: str) -> ChipFacts:
    part = PACKAGES[chip][0] if chip in PACKAGES else f"{chip.lower()}-"
    found = properties(MODM_FILES[chip], part)
    on_pads = frozenset(filter(IS_GPIO, pads(chip).values())) if chip in PACKAGES else None
    ram = next(memory(found, name) for name in ("ram", "sram", "sram1") if name in names(found))
    return ChipFacts(on_pads or gpio_pins(found), memory(found, "flash"), ram)


def _of_rp2040() -> ChipFacts:
    found = properties("rp/rp2040.xml", "rp2040")
    bank = [pin for pin in driver(found, "gpio")["gpio"] if pin["port"] == "bank0"]
    ram = sum(memory(found, name) for name in ("ram", "core0", "core1"))
    return ChipFacts(frozenset(f"GPIO{pin['name']}" for pin in bank), None, ram)


def header_sizes(name: str) -> tuple[int, int]:
    """Flash and RAM in bytes by an avr-libc header."""
    text = (HEADERS / name).read_text(encoding="utf-8", errors="replace")
    found = dict(re.findall(r"#define (FLASHEND|RAMEND|RAMSTART)\s+\(?(0x[0-9A-Fa-f]+)", text))
    values = {word: int(value, 16) for word, value in found.items()}
    return values["FLASHEND"] + 1, values["RAMEND"] - values["RAMSTART"] + 1
