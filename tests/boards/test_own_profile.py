"""A user's own profile: found by path, held to the schema, every mistake at its place."""

import json
from pathlib import Path

import pytest

from matrixgen.boards import load_profile
from matrixgen.boards.json_places import places_in
from matrixgen.model import Span, Word
from tests.boards.own_files import WHERE, good, is_told, load, only, setting, sound, without


def test_a_profile_by_path_is_read_from_the_folder_of_the_keys_file(tmp_path):
    profile = sound(tmp_path, good())
    assert profile.path == str(tmp_path / "mine.json")
    assert profile.chip == "AT90USB162"


def test_an_unknown_name_gets_a_similar_one():
    profile, findings = load_profile(Word("stick-32u5", WHERE), Path())
    assert profile is None
    found = only(findings)
    assert (found.slug, found.span) == ("unknown-controller", WHERE)
    assert found.helps == ("`stick-32u4` has a similar name",)


def test_a_name_like_none_is_told_how_to_list_them():
    found = only(load_profile(Word("q", WHERE), Path())[1])
    assert found.helps == ("`matrixgen boards` lists the controllers",)


@pytest.mark.parametrize("name", ["", ".", "..", "profile.schema", "../boards/stick-32u4"])
def test_a_name_cannot_reach_other_files(name):
    assert load_profile(Word(name, WHERE), Path())[0] is None


def json_lines(document: object) -> int:
    return len(json.dumps(document, indent=1).splitlines())


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (json.dumps(good(), indent=1).removesuffix("}").encode(), json_lines(good())),
        (json.dumps(good(), indent=1).replace(",\n", "\n", 1).encode(), 3),
        (b"\xff\xfe", 2),
        (b'{"pin_farad": NaN}', 2),
        (b"[" * 100_000, 2),
    ],
)
def test_a_file_that_is_no_json_is_unreadable(tmp_path, data, line):
    (tmp_path / "mine.json").write_bytes(data)
    profile, findings = load_profile(Word("mine.json", WHERE), tmp_path)
    assert profile is None
    assert (only(findings).slug, only(findings).span.line) == ("unreadable-profile", line)


@pytest.mark.parametrize("data", [b"{", b'{\n "name": "x",\n}', b"", b"secret", b'"secret"', b"7"])
def test_of_a_file_that_was_meant_for_no_profile_nothing_is_shown(tmp_path, data):
    (tmp_path / "mine.json").write_bytes(data)
    found = only(load_profile(Word("mine.json", WHERE), tmp_path)[1])
    assert (found.slug, found.span) == ("unreadable-profile", WHERE)
    assert "secret" not in found.message


def test_a_missing_file_and_a_folder_are_unreadable(tmp_path):
    (tmp_path / "folder.json").mkdir()
    for name in ("missing.json", "folder.json", "nul\0.json"):
        found = only(load_profile(Word(name, WHERE), tmp_path)[1])
        assert (found.slug, found.span) == ("unreadable-profile", WHERE)


WITH_PART = {"name": "PB0", "use": "shared", "duty": "is pulled down", "advice": "take another"}
WITH_PART["part"] = "resistor to ground"

MISTAKES = [
    (without("chip"), "the profile lacks `chip`", None),
    (setting(1, "flash"), "the profile has no field `flash`", '"flash"'),
    (setting("16 MHz", "clock_hz"), "`clock_hz` is not a whole number", '"16 MHz"'),
    (setting(5, "clock_hz"), "`clock_hz` is less than 1000000", "5"),
    (setting(9, "supply_volts"), "`supply_volts` is more than 5.5", "9"),
    (setting(0, "supply_volts"), "`supply_volts` is not more than 0", "0"),
    (setting("My Board", "name"), "`name` `My Board` does not have the form", '"My Board"'),
    (setting("", "title"), "`title` is empty", '""'),
    (setting([], "pins"), "`pins` is empty", "[]"),
    (setting("Arm", "family"), "`family` `Arm` does not have the form it must have", '"Arm"'),
    (setting(8, "family"), "`family` is not a text", "8"),
    (setting("CH-", "chip"), "`chip` `CH-` does not have the form it must have", '"CH-"'),
    (setting(5, "port"), "`port` is not one of `avr`, `rp2040` and", "5"),
    (setting("spare", "pins", 0, "use"), "`use` is not one of `free`, `shared` and", '"spare"'),
    (setting("yes", "pins", 0, "output"), "`output` is not true or false", '"yes"'),
    (setting("PB0", "pins", 1, "name"), "`PB0` names two pins", '"PB0"'),
    (setting("PB0", "pins", 1, "label"), "`PB0` names two pins", '"PB0"'),
    (setting(16384, "boot_loader_bytes"), "the boot loader takes all of the flash", "16384"),
    (setting(9e9, "pull_up_ohm", "min"), "`min` is more than `max`", "{"),
    (setting(4, "input_volts", "low_max"), "`low_max` is not less than `high_min`", "{"),
    (setting("shared", "pins", 0, "use"), "the pin lacks `duty`", "{"),
    (setting(WITH_PART, "pins", 0), "the pin lacks `part_ohm`", "{"),
    (
        setting({"name": "PB0", "use": "free", "part_ohm": 9}, "pins", 0),
        "the pin lacks `part`",
        "{",
    ),
    (
        setting({"min": 4, "max": 4.5, "source": "x"}, "supply_range"),
        "`supply_volts` is 5, whic",
        "{",
    ),
    (setting({"min": 4, "max": 5}, "supply_range"), "`supply_range` lacks `source`", "{"),
    (setting(9, "clock_volts"), "`clock_volts` is more than 5.5", "9"),
    (setting(2, "input_volts", "low_max_per_volt"), "`low_max_per_volt` is more than 1", "2"),
]


@pytest.mark.parametrize(("change", "message", "letters"), MISTAKES)
def test_each_mistake_is_told_at_its_place(tmp_path, change, message, letters):
    is_told(tmp_path, change, message, letters)


def test_many_mistakes_are_told_in_one_run(tmp_path):
    document = good()
    del document["chip"]
    document["clock_hz"] = "fast"
    document["pins"][3]["use"] = "maybe"
    assert len(load(tmp_path, document)[1]) == 3


def test_a_field_given_twice_is_told(tmp_path):
    text = json.dumps(good(), indent=2).replace('"chip"', '"ram_bytes": 1,\n  "chip"')
    found = only(load(tmp_path, text)[1])
    assert found.message == "`ram_bytes` is given twice"


def test_a_profile_whose_every_pin_is_reserved_is_refused(tmp_path):
    document = good()
    for pin in document["pins"]:
        pin.update(use="reserved", duty="is taken")
    assert only(load(tmp_path, document)[1]).message == "every pin is reserved"


def test_a_similar_field_name_is_offered(tmp_path):
    document = good()
    document["ram_byte"] = document.pop("ram_bytes")
    helps = [found.helps for found in load(tmp_path, document)[1]]
    assert ("`ram_bytes` has a similar name",) in helps


def test_places_of_json_values_are_their_first_line():
    text = '{\n  "a\\u0041": [1, {"b": "x"}],\n  "c": {\n    "d": null\n  }\n}'
    places = places_in(text, "f")
    assert places.values["aA", 1, "b"] == Span.in_line("f", 2, 24, 3)
    assert places.values["c", "d"] == Span.in_line("f", 4, 10, 4)
    assert places.values["c",] == Span.in_line("f", 3, 8, 1)
    assert places.names["c",] == Span.in_line("f", 3, 3, 3)
    assert places.nearest(("c", "x", 3)) == places.values["c",]


def test_a_misspelt_field_is_one_mistake(tmp_path):
    document = good()
    document["clock_khz"] = document.pop("clock_hz")
    found = only(load(tmp_path, document)[1])
    assert found.message == "the profile has no field `clock_khz`"
    assert found.helps == ("`clock_hz` has a similar name",)
