"""Chip families: each record against the profiles, the schema and the ports."""

import json

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.families import FAMILIES, Family
from matrixgen.record import changed
from matrixgen.resources import resource

OF_KNOWN_FAMILIES = [name for name in builtin_names() if builtin_profile(name).family_record]


def family_of(name: str) -> Family:
    found = builtin_profile(name).family_record
    assert found is not None
    return found


def test_every_port_of_the_schema_is_that_of_a_family_with_a_record():
    schema = json.loads((resource("boards") / "profile.schema.json").read_text(encoding="utf-8"))
    assert {*FAMILIES, None} == set(schema["properties"]["port"]["enum"])


def test_a_controller_with_a_port_is_of_a_family_with_a_record():
    for name in builtin_names():
        profile = builtin_profile(name)
        assert profile.port in (None, profile.family)
        assert profile.port is None or profile.family_record is FAMILIES[profile.port]


@pytest.mark.parametrize("name", builtin_names())
def test_every_builtin_controller_has_a_boot_loader(name):
    assert builtin_profile(name).has_boot_loader


def test_a_chip_without_a_boot_rom_has_a_boot_loader_only_in_its_flash():
    bare = changed(builtin_profile("atmega32u4"), boot_loader_bytes=0)
    assert not bare.has_boot_loader


def test_a_family_without_a_record_is_not_said_to_have_no_boot_loader():
    profile = builtin_profile("stm32f072cb")  # has one in ROM: ST AN2606
    assert (profile.family_record, profile.boot_loader_bytes) == (None, 0)
    assert profile.has_boot_loader


def test_the_firmware_can_tell_two_resets_on_the_rp2040_alone():
    assert [name for name in OF_KNOWN_FAMILIES if family_of(name).double_reset] == [
        "rp2040",
        "rp2040-40pin",
    ]


@pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)
def test_a_family_s_chips_are_those_of_its_port_and_of_the_profiles_that_build(family):
    of_profiles = {
        profile.chip.lower()
        for name in builtin_names()
        if (profile := builtin_profile(name)) and profile.port == family.name
    }
    assert of_profiles == set(family.chips)
    headers = (resource("templates") / "firmware" / "ports" / family.name / "chips").glob("*.h")
    assert {header.stem for header in headers} in (set(), set(family.chips))


@pytest.mark.parametrize("name", OF_KNOWN_FAMILIES)
def test_every_usable_pin_of_a_controller_has_a_place_of_its_own(name):
    profile = builtin_profile(name)
    places = [family_of(name).place_of(pin.name) for pin in profile.usable_pins]
    assert None not in places
    assert len(set(places)) == len(places)
    assert profile.clock_hz in (family_of(name).clocks_hz or [profile.clock_hz])


@pytest.mark.parametrize(
    ("family", "pin", "place"),
    [
        ("avr", "PD0", ("D", 0)),
        ("avr", "PF7", ("F", 7)),
        ("avr", "PD8", None),
        ("avr", "PG0", None),
        ("rp2040", "GPIO29", ("", 29)),
        ("rp2040", "GP5", ("", 5)),
        ("rp2040", "PD0", None),
        ("rp2040", "GPIO30", None),
    ],
)
def test_a_pin_s_name_says_its_port_and_its_bit(family, pin, place):
    found = FAMILIES[family].place_of(pin)
    assert (found and (found.port, found.bit)) == place
    assert FAMILIES[family].place_of(FAMILIES[family].pin_example)
