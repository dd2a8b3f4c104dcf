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


def profile_called(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found


def test_the_controllers_that_the_readme_promises_are_there():
    promised = {"atmega32u4", "stick-32u4", "board-32u4-25", "at90usb162", "at90usb1286"}
    assert promised | {"rp2040", "rp2040-40pin"} <= set(NAMES)


def test_the_schema_is_a_schema_and_describes_every_field():
    Draft202012Validator.check_schema(schema())
    fields = {**schema()["properties"], **schema()["$defs"]["pin"]["properties"]}
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
    assert profile.ram_bytes == facts.ram_bytes
    assert facts.flash_bytes in (None, profile.flash_bytes)  # the RP2040's flash is another chip


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
        fixed = {"avr": ("D+", "D-", "XTAL1"), "rp2040": ("USB_DP", "RUN", "XIN")}[profile.family]
        assert all((pin := profile.pin(word)) and not pin.is_usable for word in fixed), name


def test_the_number_of_pins_is_the_published_one():
    counts = {name: len(profile_called(name).usable_pins) for name in NAMES}
    assert counts == {
        "at90usb1286": 48,
        "at90usb162": 21,
        "at90usb646": 48,
        "atmega16u4": 26,
        "atmega32u4": 26,
        "board-32u4-25": 25,
        "rp2040": 30,
        "rp2040-40pin": 26,
        "stick-32u4": 18,
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
