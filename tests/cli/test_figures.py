"""`figures`: each figure with its formula, inputs and sources; findings have the same."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

from matrixgen.circuit.units import shown
from matrixgen.source import read_design
from tests.amounts import some
from tests.documents import report_of
from tests.examples.shipped import FOLDER, NAMES
from tests.texts import GOOD

ROOT = Path(__file__).parents[1]
LOW_SUPPLY = (
    GOOD.replace("atmega32u4", "stick-32u4-3v3").replace("PB0", "PD1").replace("PB1", "PD4")
)


def figures(program, text: str) -> dict[str, dict[str, object]]:
    ran = program("figures", program.write("pad.keys", text), "--json")
    assert ran.status == 0, ran.err
    report = report_of(ran.out, "figures")
    return {figure["symbol"]: figure for figure in report["figures"]}


@pytest.mark.parametrize("name", NAMES)
def test_every_example_s_figures_are_told_in_80_columns_and_as_the_schema_says(program, name):
    path = str(FOLDER / name / f"{name}.keys")
    ran = program("figures", path)
    assert (ran.status, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 80
    assert {"V_low", "V_IL", "margin", "t_settle", "t_press"} <= set(ran.out.split())
    assert report_of(program("figures", path, "--json").out, "figures")["file"] == path


def test_the_numbers_agree_with_their_formulas(program):
    found = figures(program, GOOD)

    def value(symbol: str, part: str) -> float:
        return next(one["value"] for one in found[symbol]["inputs"] if one["symbol"] == part)

    low = found["V_low"]["value"]
    made_of = [value("V_low", part) for part in ("V_OL", "V_F")]
    assert low == pytest.approx(sum(made_of) + value("V_low", "I") * value("V_low", "R_switch"))
    assert found["margin"]["value"] == pytest.approx(found["V_IL"]["value"] - low)
    assert value("V_low", "V_OL") == pytest.approx(found["I_OL"]["value"] * value("I_OL", "R_low"))
    across = value("I", "V_CC") - sum(made_of)
    ohm = value("I", "R_pull") + value("V_low", "R_switch")
    assert found["I"]["value"] == pytest.approx(across / ohm)
    farad = value("C", "C_pin") + value("C", "n") * value("C", "C_D")
    assert found["C"]["value"] == pytest.approx(farad + value("C", "l") * value("C", "C_wire"))
    share = value("t_settle", "V_IH") / value("t_settle", "V_CC")
    rises = -value("t_settle", "R_pull") * found["C"]["value"] * math.log(1 - share)
    assert found["t_settle"]["value"] == pytest.approx(rises)
    for symbol in ("t_turn", "t_press"):
        parts = [one["value"] for one in found[symbol]["inputs"]]
        assert found[symbol]["value"] == pytest.approx(sum(parts))
    assert found["f_scan"]["value"] == pytest.approx(1 / found["t_turn"]["value"])


def test_every_value_of_a_profile_or_a_diode_names_its_source(program):
    found = figures(program, GOOD)
    inputs = [one for figure in found.values() for one in figure["inputs"]]
    sourced = {one["symbol"]: one["source"] for one in inputs if one["source"]}
    assert "Atmel 7766" in sourced["R_pull"] and "Atmel 7766" in found["V_IL"]["source"]
    assert "Vishay 81857" in sourced["V_F"] and "Vishay 81857" in sourced["C_D"]
    assert "no source" in sourced["R_switch"] and "no source" in sourced["C_wire"]


def test_a_finding_has_the_very_numbers(program):
    checked = program("check", program.write("low.keys", LOW_SUPPLY)).out
    found = figures(program, LOW_SUPPLY)
    assert "warning[low-level-not-guaranteed]" in checked
    for symbol in ("V_low", "V_IL"):
        assert shown(found[symbol]["value"], "V") in checked
    # Worked by hand: VIL 0.2 * 3.234 V - 0.1 V = 0.547 V at 2 % less than 3.3 V, 0.605 V of diode
    # at 130 uA and 0 degrees, and the same current in 100 ohm: 0.013 V.
    assert found["margin"]["value"] == pytest.approx(0.547 - 0.605 - 0.013, abs=0.005)
    assert found["n_fails"]["value"] == 1


def test_the_firmware_waits_as_long_as_is_told(program):
    name = program.write("pad.keys", GOOD)
    assert program("build", name).status == 0
    pins = (program.folder / "pad/firmware/port/pins.h").read_text()
    (waits,) = re.findall(r"SETTLE_NS = (\d+)000", pins)
    assert figures(program, GOOD)["t_wait"]["value"] == pytest.approx(int(waits) * 1e-6)


def test_each_controller_of_a_file_has_its_own(program):
    text = GOOD.replace("atmega32u4", "atmega32u4, rp2040")
    for avr, arm in (("PD0", "GPIO0"), ("PB0", "GPIO1"), ("PB1", "GPIO2")):
        text = text.replace(f"on {avr}", f"on {avr}, {arm}")
    ran = program("figures", program.write("pad.keys", text), "--json")
    controllers = [figure["controller"] for figure in json.loads(ran.out)["figures"]]
    assert set(controllers) == {None, "atmega32u4", "rp2040"}


def test_figures_are_told_of_a_file_with_errors_and_its_errors_are_counted(program):
    bare = GOOD.replace("line A B", "line A B\n  line Shift C")
    bare = bare.replace("toward columns", "toward columns\n  without diode A B Shift C")
    bare = bare.replace("PD0  A B", "PD0  A B\n  row r1 on PD0  Shift C")
    bare = bare.replace("PB0  A", "PB0  A Shift").replace("PB1  B", "PB1  B C")
    path = program.write("pad.keys", bare)
    assert "error[pin-used-twice]" in program("check", path).out
    ran = program("figures", path)
    assert (ran.status, ran.err) == (1, "")
    assert "n_ghosts" in ran.out and "t_settle" in ran.out
    assert re.search(r"^pad.keys: 1 error, which may change these figures", ran.out, re.M)
    ran = program("figures", path, "--json")
    report = report_of(ran.out, "figures")
    assert ran.status == 1 and report["errors"] > 0
    counts = {one["symbol"]: one["value"] for one in report["figures"] if one["unit"] == "sets"}
    assert counts["n_ghosts"] == 4  # any three corners of the rectangle show the fourth


def test_a_file_without_wires_has_no_figures_yet_and_that_is_no_mistake(program):
    path = program.write("pad.keys", GOOD.partition("wiring")[0])
    ran = program("figures", path)
    assert (ran.status, ran.err) == (0, "")
    assert "no wires yet" in ran.out and "`matrixgen fit pad.keys`" in ran.out
    assert json.loads(program("figures", path, "--json").out)["figures"] == []


@pytest.mark.parametrize(
    ("text", "status", "said"),
    [("plate\n  line Q/W\n", 1, "error[syntax]"), (None, 2, "error[unreadable-file]")],
    ids=["a syntax error", "no file"],
)
def test_a_file_that_does_not_read_has_no_figures(program, text, status, said):
    ran = program("figures", program.write("pad.keys", text) if text else "nowhere.keys")
    assert (ran.status, ran.out) == (status, "")
    assert said in ran.err


BROKEN = sorted(
    path for folder in ("language", "rules", "messages") for path in (ROOT / folder).rglob("*.keys")
)


def test_whatever_reads_has_figures_as_the_schema_says(program):
    """Every broken and sound file of the tests that reads, as it stands."""
    with_errors = 0
    for path in some(BROKEN, 150):
        if read_design(str(path), None)[0] is None:
            continue
        ran = program("figures", str(path), "--json")
        report = report_of(ran.out, "figures")
        assert (ran.status, ran.err) == (int(report["errors"] > 0), ""), path
        with_errors += report["errors"] > 0
        assert program("figures", str(path)).out
    assert with_errors > 10


def test_a_file_without_pins_gets_what_can_be_said(program):
    text = re.sub(r" on P\w+", "", GOOD)
    ran = program("figures", program.write("pad.keys", text))
    assert ran.status == 0
    assert ran.out.splitlines()[-1] == "unfinished: no pins"
