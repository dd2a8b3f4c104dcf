"""Lights and knobs where the bench reads of them: the pin table, the sheet, what to buy."""

from __future__ import annotations

import csv
import io

from matrixgen.emit.pin_table import comma_separated, markdown, pin_table
from matrixgen.emit.sheet import page
from tests.sheet.pictures import sheet_in
from tests.texts import examined

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B
  light CapsLock at 2.5, 0.2
  light nav at 2.5, 0.8
  knob volume at 3.5, 0.5

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
  light CapsLock on PB2 red 1.8 V
  light nav on PB3 to supply while nav is on
  knob volume on PD2 PD3

layer base
  A = hold layer nav  volume.left = VolumeDown  volume.right = VolumeUp

layer nav
  B = X
"""


def test_the_pin_table_says_from_where_to_where_each_light_is_soldered():
    text = markdown(pin_table(examined(PAD).mounted[0]))
    ground = "PB2, resistor 2.2 k\u03a9, longer leg (anode); shorter leg to ground"
    supply = "supply, resistor 2.2 k\u03a9, longer leg (anode); shorter leg (cathode) to PB3"
    assert f"| light CapsLock | PB2 | - | {ground} |" in text
    assert f"| light nav | PB3 | - | {supply} |" in text
    assert "7 of 26 usable pins" in text
    spare = text.partition("## Spare pins")[2]
    assert not any(f"| {pin} |" in spare for pin in ("PB2", "PB3", "PD2", "PD3"))


def test_the_table_for_a_spreadsheet_has_a_row_for_each_of_their_pins():
    rows = list(csv.DictReader(io.StringIO(comma_separated(pin_table(examined(PAD).mounted[0])))))
    found = {(row["kind"], row["name"]): row["pin"] for row in rows if row["kind"] == "light"}
    assert found == {("light", "CapsLock"): "PB2", ("light", "nav"): "PB3"}
    assert [row["pin"] for row in rows if row["kind"] == "knob"] == ["PD2", "PD3"]


def test_the_sheet_draws_them_on_both_sides_and_says_what_to_buy():
    assert not examined(PAD).errors
    made = sheet_in(PAD)
    text = page(made).decode()
    for called in ("light CapsLock", "light nav", "knob volume"):
        assert text.count(f'data-component="{called}"') >= 2
    bought = {one.what: one.amount for one in made.bought}
    assert bought["LED of 3 mm, red"] == "2"
    assert bought["resistor 2.2 k\u03a9, for a light"] == "2"
    front = {one.called: one.at[0] for one in made.front.bare.components}
    assert {one.called: -one.at[0] for one in made.back.bare.components} == front
