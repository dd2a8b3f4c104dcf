"""Diodes: the built-in ones against their datasheets, and a user's own with every mistake."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from matrixgen.boards import builtin_diodes, load_diode
from matrixgen.boards.diodes import validate_diodes
from matrixgen.boards.own_json import OwnJson
from matrixgen.model import Word
from matrixgen.resources import resource
from tests.circuit.data_1n4148 import FIGURE_1, FIGURE_2_UPPER
from tests.circuit.matrices import NOWHERE

BUILT_IN = json.loads((resource("boards") / "diodes.json").read_text("utf-8"))
SCHEMA = json.loads((resource("boards") / "diodes.schema.json").read_text("utf-8"))
READ_OFF = 0.012
"""Volts: our curve is straight between decades on a logarithmic scale, theirs bends a little."""


@pytest.mark.parametrize(("milliampere", "celsius", "volts"), FIGURE_1)
def test_the_1n4148_drops_what_figure_1_shows(milliampere, celsius, volts) -> None:
    drop = builtin_diodes()["1N4148"].drop(celsius)
    assert drop.volts(milliampere / 1000) == pytest.approx(volts, abs=READ_OFF)


def test_diode_and_resistor_share_what_is_across_them() -> None:
    drop = builtin_diodes()["1N4148"].drop()
    for across in (0.2, 1.0, 5.0):
        ampere = drop.ampere_through(20_000.0, across)
        assert drop.volts(ampere) + 20_000.0 * ampere == pytest.approx(across, abs=1e-9)


@pytest.mark.parametrize(("milliampere", "volts"), FIGURE_2_UPPER)
def test_at_worst_it_drops_what_the_upper_curve_of_figure_2_shows(milliampere, volts) -> None:
    drop = builtin_diodes()["1N4148"].drop(worst=True)
    assert drop.volts(milliampere / 1000) == pytest.approx(volts, abs=READ_OFF)


@pytest.mark.parametrize(
    ("milliampere", "most"),
    [(0.1, 0.24), (1, 0.32), (10, 0.40)],  # Diotech, Formosa and Rectron BAT54 agree
)
def test_the_bat54_drops_at_most_what_three_makers_guarantee(milliampere, most) -> None:
    drop = builtin_diodes()["BAT54"].drop(worst=True)
    assert drop.volts(milliampere / 1000) == pytest.approx(most, abs=1e-9)


@pytest.mark.parametrize("name", builtin_diodes())
def test_a_curve_is_the_same_both_ways_and_grows(name) -> None:
    for worst in (False, True):
        for celsius in (0, 25, 50):
            drop = builtin_diodes()[name].drop(celsius, worst=worst)
            amperes = [10 ** (exponent / 10 + 0.05) for exponent in range(-80, -9)]
            volts = [drop.volts(ampere) for ampere in amperes]
            assert volts == sorted(set(volts))
            for ampere, volt in zip(amperes, volts, strict=True):
                assert drop.ampere(volt) == pytest.approx(ampere, rel=1e-6)
                step = ampere * 1.0001
                slope = (drop.volts(step) - volt) / (step - ampere)
                assert drop.ohm(ampere) == pytest.approx(slope, rel=1e-3)


def test_cold_diodes_drop_more_and_the_worst_part_drops_most() -> None:
    for diode in builtin_diodes().values():
        for ampere in (2e-5, 1e-4, 3e-4):
            cold, warm = (diode.drop(celsius, worst=True).volts(ampere) for celsius in (0, 50))
            assert cold > warm > diode.drop(50).volts(ampere)


def checked(document: object) -> list[str]:
    text = json.dumps(document)
    read = OwnJson(shown="own.json", text=text, document=document)
    return [found.message for found in validate_diodes(read)]


def test_the_built_in_ones_are_what_the_schema_says_and_make_sense() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert list(Draft202012Validator(SCHEMA).iter_errors(BUILT_IN)) == []
    for one in BUILT_IN["diodes"]:
        assert checked({"diodes": [one]}) == []
    names = [one["name"] for one in BUILT_IN["diodes"]]
    assert len(set(names)) == len(names) >= 5


def own(**changes: object) -> dict[str, object]:
    one = BUILT_IN["diodes"][0]
    return {"diodes": [{**one, **changes}]}


FIRST, SECOND = BUILT_IN["diodes"][0]["forward"][:2]


def curve(**changes: float) -> dict[str, object]:
    """A diode whose curve has two points, the second one changed."""
    return own(forward=[FIRST, {**SECOND, **changes}])


@pytest.mark.parametrize(
    ("document", "message"),
    [
        ({}, "the file lacks `diodes`"),
        ([], "the file is not a group of fields in braces"),
        ({"diodes": []}, "`diodes` is empty"),
        ({"diodes": BUILT_IN["diodes"][:2]}, "a file of your own has one diode; this is another"),
        (own(zero_bias_farad=0), "`zero_bias_farad` is not more than 0"),
        (own(zero_bias_farad=1), "`zero_bias_farad` is more than 1e-08"),
        (own(reverse_volts=-5), "`reverse_volts` is not more than 0"),
        (own(name="my diode"), "`name` `my diode` does not have the form it must have"),
        (own(titel="x"), "`diodes` has no field `titel`"),
        (own(forward=[FIRST]), "`forward` has fewer than 2 entries"),
        (own(forward=[SECOND, FIRST]), "`ampere` is not more than that of the point before"),
        (curve(volts_max=0.3, volts_typical=0.2), "the voltage does not grow with the current"),
        (curve(volts_typical=0.6), "`volts_typical` is more than `volts_max`"),
        (curve(volts_per_kelvin=0.002), "`volts_per_kelvin` is more than 0"),
        (curve(ampere=0), "`ampere` is not more than 0"),
    ],
)
def test_a_mistake_in_a_file_of_one_s_own_is_found(document: object, message: str) -> None:
    assert message in checked(document)


def load(text: str, folder: Path) -> tuple[object, list[str]]:
    diode, found = load_diode(Word(text, NOWHERE), folder)
    return diode, [f"{one.severity.value}[{one.slug}]: {one.message}" for one in found]


def test_a_file_of_one_s_own_is_found_by_its_path(tmp_path: Path) -> None:
    (tmp_path / "mine.json").write_text(json.dumps(own(name="MINE-1")))
    diode, found = load_diode(Word("mine.json", NOWHERE), tmp_path)
    assert diode is not None and (diode.name, found) == ("MINE-1", [])
    assert diode.path == str(tmp_path / "mine.json")


def test_what_cannot_be_read_says_so(tmp_path: Path) -> None:
    (tmp_path / "broken.json").write_text("{")
    shown = tmp_path / "none.json"
    assert load("none.json", tmp_path) == (
        None,
        [f"error[unreadable-diode]: `{shown}` cannot be read: no such file or directory"],
    )
    shown = tmp_path / "broken.json"
    assert f"error[unreadable-diode]: `{shown}` is not JSON" in load("broken.json", tmp_path)[1][0]
    (tmp_path / "broken.json").write_text(json.dumps(own()).removesuffix("}"))
    assert "error[unreadable-diode]: not JSON" in load("broken.json", tmp_path)[1][0]


@pytest.mark.parametrize(
    ("name", "help"),
    [
        ("1n4148", "it is written `1N4148`"),
        ("BAT45", None),
        ("1N4148X", "`1N4148` has a similar name"),
        ("germanium", None),
    ],
)
def test_an_unknown_name_is_a_warning_with_the_names_that_are_known(name, help) -> None:
    diode, (found,) = load_diode(Word(name, NOWHERE), Path())
    assert (diode, found.slug, found.is_error) == (None, "unknown-diode", False)
    assert (
        found.helps[0].startswith("known are 1N4148, ") if help is None else found.helps[0] == help
    )


def test_without_a_word_it_is_the_usual_one() -> None:
    diode, found = load_diode(None, Path())
    assert diode is builtin_diodes()["1N4148"] and found == []
