"""Chips without USB beside what modm-devices says of each: see `chip_facts.py` for its traps."""

import re
from collections.abc import Iterator

import pytest
from modm_devices.parser import DeviceParser

from matrixgen.boards.without_usb import WITHOUT_USB, lacks_usb, why_no_keyboard
from tests.boards.chip_facts import DATA

COMMON = ("ATmega328P", "atmega328", "ATmega2560", "ATtiny85", "ATmega32", "ESP8266", "ESP32")
WITH_USB = ("ATmega32U4", "AT90USB1286", "ESP32-S3", "esp32-s2", "nRF52840", "RP2040", "SAMD21G18A")
NO_CHIPS = ("", "at", "atmega", "Pad", "stick-32u4", "esp", "328P")


USB_DRIVER = re.compile(r'<driver (?:device-name="([^"]*)" )?[^>]*name="usb[^"]*"')


def avr_chips() -> Iterator[tuple[str, bool]]:
    """Each AVR chip, and whether the data has a USB peripheral of it."""
    for path in sorted((DATA / "avr").glob("*.xml")):
        for device in DeviceParser().parse(str(path)).get_devices():
            drivers = [driver["name"] for driver in device.properties["driver"]]
            yield device.partname, any("usb" in name for name in drivers)


def stm32_with_usb(chip: str) -> list[bool]:
    """Whether a chip such as STM32F072 has USB, once for each file of the data that it is in.

    Read from the file itself: its name has the chips' numbers, and a driver those that have it.
    """
    family, number = chip[5:7].lower(), chip[7:9].lower()
    files = [
        path
        for path in (DATA / "stm32").glob(f"stm32{family}-*.xml")
        if number in path.stem.split("-")[1].split("_")
    ]
    found = [USB_DRIVER.findall(path.read_text("utf-8")) for path in files]
    return [any(not names or number in names.split("|") for names in one) for one in found]


def test_an_avr_chip_has_usb_where_its_number_says_so():
    found = list(avr_chips())
    assert len(found) > 200 and any(has_usb for _, has_usb in found)
    assert [name for name, has_usb in found if lacks_usb(name) == has_usb] == []


@pytest.mark.parametrize("chip", [name for name in WITHOUT_USB if name.startswith("STM32")])
def test_no_stm32_of_the_list_has_usb(chip):
    found = stm32_with_usb(chip)
    assert found and not any(found)


@pytest.mark.parametrize("chip", ["STM32F103", "STM32F072", "STM32L052", "STM32G0B1", "STM32C071"])
def test_the_data_tells_which_stm32_has_usb(chip):
    assert any(stm32_with_usb(chip)) and not lacks_usb(chip)


@pytest.mark.parametrize("name", COMMON)
def test_common_chips_without_usb_are_known(name):
    assert why_no_keyboard(name) == "this chip has no USB"


@pytest.mark.parametrize("name", [*WITH_USB, *NO_CHIPS])
def test_nothing_is_said_of_others(name):
    assert why_no_keyboard(name) is None
