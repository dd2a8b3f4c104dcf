"""Files that are not finished: checked in all that is there, and told what is still open."""

import json

import pytest

from tests.texts import GOOD

PLATE = "plate\n  line Q W E\n  line A S D\n"
NAMED = f'keyboard "Pad"\n\n{PLATE}'
ON_A_CHIP = f'keyboard "Pad"\n  controller stick-32u4\n\n{PLATE}'
ROWS = "\nwiring\n  diodes 1N4148, band toward columns\n  row r0 Q to E\n  row r1 A to D\n"
COLUMNS = "  column c0 Q A\n  column c1 W S\n  column c2 E D\n"

CASES = {
    "a plate": (PLATE, "no name, no controller, no wiring"),
    "a key without meaning": (
        PLATE.replace("D", "Fn"),
        "no name, no controller, no wiring, no action for `Fn`",
    ),
    "a name": (NAMED, "no controller, no wiring"),
    "a controller": (ON_A_CHIP, "no wiring"),
    "rows alone": (ON_A_CHIP + ROWS, "no columns, no pins"),
    "an empty wiring": (ON_A_CHIP + "\nwiring\n", "no rows, no columns"),
    "wires without pins": (ON_A_CHIP + ROWS + COLUMNS, "no pins"),
    "wires without a controller": (NAMED + ROWS + COLUMNS, "no controller, no pins"),
    "one pin forgotten": (GOOD.replace(" on PB1", ""), "no pin for `c1`"),
    "pins without a controller": (GOOD.replace("  controller atmega32u4\n", ""), "no controller"),
}


@pytest.mark.parametrize(("text", "missing"), CASES.values(), ids=CASES)
def test_what_is_open_is_the_last_line_and_no_finding(program, text, missing):
    ran = program("check", program.write("pad.keys", text))
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.splitlines()[-1] == f"unfinished: {missing}"
    assert "error[" not in ran.out


@pytest.mark.parametrize(("text", "missing"), CASES.values(), ids=CASES)
def test_finished_and_build_count_the_same_as_errors(program, text, missing):
    name = program.write("pad.keys", text)
    checked = program("check", "--finished", name)
    built = program("build", name)
    assert (checked.status, built.status) == (1, 1)
    assert checked.out == built.err
    assert "unfinished" not in checked.out
    assert checked.out.count("error[") >= len(missing.split(", "))
    assert not (program.folder / "pad").exists()


def test_json_lists_what_is_open(program):
    name = program.write("pad.keys", PLATE)
    report = json.loads(program("check", "--json", name).out)
    assert report["unfinished"] == {name: ["no name", "no controller", "no wiring"]}
    assert (report["errors"], report["findings"]) == (0, [])
    finished = json.loads(program("check", "--json", "--finished", name).out)
    assert (finished["unfinished"], finished["errors"]) == ({}, 3)


def test_of_several_files_each_is_named(program):
    plate, good = program.write("plate.keys", NAMED), program.write("good.keys")
    lines = program("check", plate, good).out.splitlines()
    assert lines[-2:] == [
        "no findings so far in 2 files",
        "plate.keys: unfinished: no controller, no wiring",
    ]


def test_a_plate_is_told_how_many_pins_it_needs_at_least(program):
    out = program("check", program.write("pad.keys", PLATE)).out
    assert out.splitlines()[0] == "pad.keys: 6 keys, which need at least 5 pins (2 rows, 3 columns)"


def test_pins_are_counted_so_far_while_an_axis_is_missing(program):
    first = [
        program("check", program.write("pad.keys", text)).out.splitlines()[0]
        for text in (ON_A_CHIP + ROWS, NAMED + ROWS, NAMED + ROWS + COLUMNS)
    ]
    assert first == [
        "pad.keys: needs 2 of 18 usable pins on `stick-32u4` so far, 16 spare",
        "pad.keys: needs 2 pins so far",
        "pad.keys: needs 5 pins",
    ]


def test_a_mistake_in_what_is_there_is_found_all_the_same(program):
    text = NAMED + ROWS.replace("A to D", "A S") + COLUMNS
    ran = program("check", program.write("pad.keys", text))
    assert ran.status == 1
    assert "error[key-on-no-row]: `D` is on no row" in ran.out
    assert ran.out.splitlines()[-1] == "unfinished: no controller, no pins"


def test_warnings_of_an_unfinished_file_are_told(program):
    text = NAMED + ROWS.replace("1N4148, band toward columns", "1N4148, band toward rows")
    text += COLUMNS + "  settle 0.1 us\n"
    ran = program("check", program.write("pad.keys", text))
    assert (ran.status, ran.out.splitlines()[-2]) == (0, "1 warning so far")


def test_an_empty_file_is_an_error(program):
    assert program("check", program.write("pad.keys", "# to come\n")).status == 1
