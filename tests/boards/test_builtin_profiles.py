"""Each built-in profile against its schema, our own sense checks, and chip data by others."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from matrixgen.boards import Profile, builtin_names, builtin_profile
from matrixgen.boards.validate import schema, validate
from matrixgen.resources import resource
from tests.boards.chip_facts import (
    FROM_HEADERS,
    HEADERS,
    PINS_OF_LARGE_AT90USB,
    facts_of,
    header_sizes,
)

NAMES = builtin_names()
MEMORY_NOT_AT_HAND = ("ESP32-S2", "ESP32-S3")
"""Chips whose profile says that the size of its RAM is from memory."""

FIXED_PINS = {
    "avr": "D+ D- XTAL1",
    "ch552": "P3.6 P3.7 RST",
    "esp32s2": "GPIO19 GPIO20 CHIP_PU XTAL_P XTAL_N GPIO26 GPIO32",
    "esp32s3": "GPIO19 GPIO20 CHIP_PU XTAL_P XTAL_N GPIO26 GPIO32",
    "nrf52": "D+ D- SWDIO SWDCLK XC1 XC2",
    "rp2040": "USB_DP USB_DM RUN XIN",
    "rp2350": "USB_DP USB_DM RUN XIN",
    "samd21": "PA24 PA25 RESETN",
    "stm32f0": "PA11 PA12 NRST BOOT0",
    "stm32f1": "PA11 PA12 NRST BOOT0 PD0 PD1",
    "stm32f4": "PA11 PA12 NRST BOOT0 PH0 PH1",
}
"""Pins for USB, reset, crystal and flash that no chip of a family can do without."""


def profile_called(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found


def test_the_controllers_that_the_readme_promises_are_there():
    promised = {"atmega32u4", "stick-32u4", "board-32u4-25", "at90usb162", "at90usb1286"}
    assert promised | {"rp2040", "rp2040-40pin"} <= set(NAMES)
    assert len(NAMES) >= 24


def test_the_schema_is_a_schema_and_describes_every_field():
    Draft202012Validator.check_schema(schema())
    parts = [schema(), *schema()["$defs"].values(), schema()["properties"]["output_low"]]
    fields = {name: field for part in parts for name, field in part.get("properties", {}).items()}
    assert {"side", "ohm", "sink_ampere"} <= set(fields)
    nameless = [name for name, field in fields.items() if not {"description", "$ref"} & set(field)]
    assert nameless == []


@pytest.mark.parametrize("name", NAMES)
def test_a_builtin_profile_is_what_the_schema_says_and_makes_sense(name):
    text = (resource("boards") / f"{name}.json").read_text(encoding="utf-8")
    assert validate(json.loads(text), text, f"{name}.json") == []


@pytest.mark.parametrize("name", NAMES)
def test_a_builtin_profile_bears_the_name_of_its_file(name):
    assert profile_called(name).name == name


@pytest.mark.parametrize("name", NAMES)
def test_every_usable_pin_exists_on_the_chip(name):
    profile = profile_called(name)
    assert {pin.name for pin in profile.usable_pins} <= facts_of(profile.chip).pins


@pytest.mark.parametrize("name", NAMES)
def test_no_pin_of_the_chip_is_forgotten(name):
    profile = profile_called(name)
    assert facts_of(profile.chip).pins <= {pin.name for pin in profile.pins}


@pytest.mark.parametrize("name", NAMES)
def test_flash_and_ram_are_those_of_the_chip(name):
    profile = profile_called(name)
    facts = facts_of(profile.chip)
    assert facts.ram_bytes == profile.ram_bytes or profile.chip in MEMORY_NOT_AT_HAND
    assert facts.flash_bytes in (None, profile.flash_bytes)  # where it is a chip of its own


def test_the_figures_copied_from_the_headers_are_still_what_the_headers_say():
    here = [row for row in FROM_HEADERS.values() if (HEADERS / row[0]).exists()]
    read_again = [(name, *header_sizes(name)) for name, _, _ in here]
    assert read_again == here
    assert len(PINS_OF_LARGE_AT90USB) == 48  # facts sheet of the project, A.1, from the same header


@pytest.mark.parametrize("name", NAMES)
def test_a_board_brings_out_no_pin_that_its_bare_chip_reserves(name):
    board = profile_called(name)
    bare = profile_called(board.chip.lower())
    assert {pin.name for pin in board.usable_pins} <= {pin.name for pin in bare.usable_pins}


def test_usb_reset_and_crystal_pins_are_reserved_on_every_chip():
    for name in NAMES:
        profile = profile_called(name)
        for word in FIXED_PINS[profile.family].split():
            assert (pin := profile.pin(word)) and not pin.is_usable, (name, word)


def test_the_number_of_pins_is_the_published_one():
    profiles = map(profile_called, NAMES)  # a pin that its board holds low is among the published
    counts = {one.name: sum(pin.is_usable for pin in one.pins) for one in profiles}
    offered = {one.name: len(one.usable_pins) for one in map(profile_called, NAMES)}
    held = {"board-f401", "board-f411"}  # PB2, with 10 kohm to ground
    assert {name for name in NAMES if offered[name] != counts[name]} == held
    assert counts == {
        "at90usb1286": 48,
        "at90usb162": 21,
        "at90usb646": 48,
        "atmega16u4": 26,
        "atmega32u2": 21,
        "atmega32u4": 26,
        "board-32u4-25": 25,
        "board-f103": 30,
        "board-f401": 30,
        "board-f411": 30,
        "ch552t": 14,  # 17 less USB's two and the reset
        "esp32-s2": 33,  # 43 less USB's two, the flash's seven and GPIO46
        "esp32-s3": 36,  # 45 less USB's two and the flash's seven
        "nrf52840": 48,
        "rp2040": 30,
        "rp2040-40pin": 26,
        "rp2350-40pin": 26,
        "rp2350a": 30,
        "samd21g18a": 36,  # 38 less USB's two
        "stick-32u4": 18,
        "stick-32u4-3v3": 18,
        "stm32f072cb": 35,  # 37 less USB's two
        "stm32f103c8": 33,  # 37 less USB's two and the crystal's two
        "stm32f401cc": 32,  # 36 less the same
        "stm32f411ce": 32,
    }


def test_a_pin_is_found_by_its_name_and_by_its_label():
    stick = profile_called("stick-32u4")
    assert stick.pin("PD0") is stick.pin("3")
    assert stick.pin("PZ9") is None


def test_spare_pins_are_offered_before_those_with_a_second_duty():
    uses = [pin.use for pin in profile_called("atmega32u4").usable_pins]
    assert uses == sorted(uses)
    assert "reserved" not in uses


def test_every_port_named_by_a_profile_is_a_folder_of_the_firmware():
    ports = {profile_called(name).port for name in NAMES} - {None}
    folders = {path.name for path in Path(resource("templates") / "firmware" / "ports").iterdir()}
    assert ports <= folders


@pytest.mark.parametrize("name", NAMES)
def test_a_builtin_profile_has_firmware_just_where_it_claims_some(name):
    profile = profile_called(name)
    assert (profile.port is None) == (profile.proof == "pins only")
