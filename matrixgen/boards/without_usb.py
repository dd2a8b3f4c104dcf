"""Chips that are often at hand and have no USB of their own: no keyboard can be made of one.

Of the classic AVR chips the part number tells: those with USB have a `U` in it (ATmega32U4) or are
an AT90USB. The others are a short list of chips that are sold on common boards. The STM32 of it
are as in modm-devices, which the tests read; the rest is from memory of the makers' overviews.
"""

from __future__ import annotations

WITHOUT_USB = (
    *("STM32C011", "STM32C031", "STM32F030", "STM32F031", "STM32F051", "STM32F091", "STM32F100"),
    *("STM32F101", "STM32F301", "STM32F334", "STM32F410", "STM32G030", "STM32G031", "STM32G041"),
    *("STM32G050", "STM32G051", "STM32G061", "STM32G070", "STM32L010", "STM32L011", "STM32L021"),
    *("STM32L031", "STM32L041", "STM32L051", "STM32L071", "STM32L081", "SAMD20"),
    *("nRF51422", "nRF51822", "nRF52805", "nRF52810", "nRF52811", "nRF52832"),
    *("ESP8266", "ESP8285", "CH32V003"),
)
"""How the names of such chips begin; what follows is a package or a size of memory."""

ONLY_A_SERIAL_PORT = ("ESP32-C3", "ESP32-C6", "ESP32-H2")
"""Chips whose USB is a fixed serial port (from memory of the maker's overviews)."""

ALONE = ("ESP32",)
"""Names that only the whole word is: the ESP32-S2 and -S3 have USB, the ESP32 has not."""

_CLASSIC_AVR = ("atmega", "attiny", "at90can", "at90pwm", "at90s")


def why_no_keyboard(name: str) -> str | None:
    """Return why no keyboard can be made of a chip of this name; None for all others."""
    folded = _folded(name)
    if any(folded.startswith(_folded(one)) for one in ONLY_A_SERIAL_PORT):
        return "the USB of this chip is a fixed serial port"
    return "this chip has no USB" if lacks_usb(name) else None


def lacks_usb(name: str) -> bool:
    """Whether a chip of this name is known to have no USB."""
    folded = _folded(name)
    number, _, _ = name.casefold().partition("-")  # what follows is a speed and a package
    family = next((one for one in _CLASSIC_AVR if folded.startswith(one)), None)
    if family:
        return number.removeprefix(family)[:1].isdigit() and "u" not in number
    listed = any(folded.startswith(_folded(one)) for one in WITHOUT_USB)
    return listed or folded in map(_folded, ALONE)


def _folded(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())
