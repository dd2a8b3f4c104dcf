"""The pin table says just what the file and the profile say, and survives odd names."""

import csv
import io

import pytest

from matrixgen.emit.jinja import markdown_cell
from matrixgen.emit.pin_table import CSV_COLUMNS, comma_separated, markdown, pin_table
from matrixgen.emit.wire_colours import DIGIT_COLOURS
from tests.examples.shipped import NAMES, example


def records(name: str) -> list[dict[str, str]]:
    shipped = example(name)
    text = comma_separated(pin_table(shipped.keyboard, shipped.profile))
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.parametrize("name", NAMES)
def test_each_line_of_the_file_is_one_record_with_its_keys_in_soldering_order(name: str) -> None:
    wiring = example(name).keyboard.wiring
    found = [record for record in records(name) if record["kind"] in ("row", "column")]
    said = {
        (line.axis, line.name.text, " ".join(word.text for word in line.visits))
        for line in wiring.lines
    }
    assert {(record["kind"], record["name"], record["keys"]) for record in found} == said
    assert len(found) == len(wiring.lines)
    for record in found:
        assert record["scan"] == ("driven" if record["kind"] == wiring.drive else "sensed")


@pytest.mark.parametrize("name", NAMES)
def test_used_spare_and_reserved_pins_are_all_pins_of_the_controller_once(name: str) -> None:
    pins = [record["pin"] for record in records(name)]
    assert sorted(pins) == sorted(pin.name for pin in example(name).profile.pins)


def test_the_file_s_own_colours_are_kept_and_others_suggested_by_digit() -> None:
    heron = {record["name"]: record for record in records("heron-12") if record["name"]}
    assert (heron["middle"]["wire"], heron["middle"]["wire_chosen_by"]) == ("orange", "file")
    plover = [record for record in records("plover-46") if record["kind"] == "column"]
    assert [record["wire"] for record in plover[:10]] == list(DIGIT_COLOURS)
    assert plover[10]["wire"] == "black", "the last digit of 10"
    assert {record["wire_chosen_by"] for record in plover} == {"suggestion"}


def test_the_csv_has_one_header_and_crlf_line_ends_as_rfc_4180_says() -> None:
    shipped = example("heron-12")
    text = comma_separated(pin_table(shipped.keyboard, shipped.profile))
    assert text.startswith(",".join(CSV_COLUMNS) + "\r\n")
    assert text.count("\n") == text.count("\r\n")


@pytest.mark.parametrize("name", NAMES)
def test_the_page_s_tables_have_as_many_cells_in_each_row(name: str) -> None:
    shipped = example(name)
    page = markdown(pin_table(shipped.keyboard, shipped.profile))
    width = 0
    for line in page.splitlines():
        if not line.startswith("|"):
            width = 0
            continue
        cells = line.replace("\\|", "").count("|") - 1
        assert width in (0, cells), line
        width = cells


def test_the_page_says_which_way_the_band_points() -> None:
    shipped = example("heron-12")
    page = markdown(pin_table(shipped.keyboard, shipped.profile))
    assert "**The band points toward the column wire.**" in page
    assert "row wire, switch, diode (in at the plain end, out at the band), column wire" in page


@pytest.mark.parametrize(
    ("text", "cell"), [("Esc", "`Esc`"), ("`", "`` ` ``"), ("a|b", "`a\\|b`"), ("\\", "`\\`")]
)
def test_a_key_s_name_is_code_in_markdown_whatever_its_sign(text: str, cell: str) -> None:
    assert markdown_cell(text) == cell
