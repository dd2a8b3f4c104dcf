"""The sheet's lists: what to cut and what to buy."""

from __future__ import annotations

from math import ceil

import pytest

from matrixgen.emit.sheet import Sheet
from tests.sheet.pictures import sheet, sheet_in

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  cut-out 13.8 x 12.5 mm
  line A B ~4 C:1.5
  line D E ~4 F:1.5x2

wiring
  drive columns, sense rows
  {diodes}
  row    r0 on PD0 wire red    A B C
  row    r1 on PD1 wire red    D E F
  column c0 on PB0 wire yellow A D
  column c1 on PB1 wire yellow B E
  column c2 on PB2 wire green  C F
"""


def drawn(diodes: str) -> Sheet:
    return sheet_in(PAD.format(diodes=diodes))


def bought(diodes: str) -> dict[str, str]:
    return {one.what: one.amount for one in drawn(diodes).bought}


def test_what_to_buy_is_counted_by_kind():
    found = bought("diodes 1N4148, band toward columns")
    assert found["switches that fit a cut-out of 13.8 × 12.5 mm"] == "6"
    assert found["diodes 1N4148, with leads"] == "6 + 1 spare"
    assert {what: many for what, many in found.items() if what.startswith("keycaps")} == {
        "keycaps of 1 unit": "4",
        "keycaps of 1.5 units": "1",
        "keycaps of 1.5 × 2 units": "1",
    }


def test_stabilisers_and_screws_are_counted_by_their_sizes():
    holes = "  hole at -1, 0\n  hole at -1, 1 for M2\n  hole at -1, 2 for M2\n"
    plate = f"  line A:2 B:2.25 ~4 C:6.25\n{holes}  stabiliser none B\n"
    text = PAD.format(diodes="").replace("  line A B ~4 C:1.5\n", plate)
    found = {one.what: one.amount for one in sheet_in(text).bought}
    assert found["stabilisers, posts 23.8 mm apart"] == "2"
    assert (found["screw M3"], found["screws M2"]) == ("1", "2")
    assert found["stabiliser, posts 100.0 mm apart"] == "1"


def test_keys_without_diodes_take_none():
    diodes = "diodes 1N4148, band toward columns\n  without diode A B"
    assert bought(diodes)["diodes 1N4148, with leads"] == "4 + 1 spare"
    assert not [what for what in bought("without diode A B C D E F") if "diode" in what]


def test_metres_of_a_colour_are_those_of_its_wires_rounded_up():
    shown = drawn("diodes 1N4148, band toward columns")
    metres = sum(wire.metres for wire in shown.wires if wire.ink.colour.name == "red")
    (amount,) = (one.amount for one in shown.bought if one.what == "insulated wire, red")
    assert amount == f"{ceil(metres * 10) / 10:.1f} m"


def test_pieces_are_the_ways_with_slack_and_the_lead_comes_last():
    """5 mm a joint, 200 mm of lead: in steps of 5 mm."""
    shown = drawn("diodes 1N4148, band toward columns")
    row = next(wire for wire in shown.wires if wire.ink.wire == "r0")
    assert (row.leads, row.made_of) == (1, "1 diode lead and 1 jumper")
    assert list(row.cut_mm) == [ceil((5.25 * 19.05 + 10) / 5) * 5, 210]
    column = next(wire for wire in shown.wires if wire.ink.wire == "c0")
    assert list(column.cut_mm) == [ceil((19.05 + 10) / 5) * 5, 210]


@pytest.mark.parametrize("name", ["avocet-42", "goosander-104"])
def test_each_jumper_is_listed_with_its_keys_and_its_piece(name):
    shown = sheet(name)
    listed = [(wire, start, end) for wire, start, end, _ in shown.jumpers]
    assert listed == [
        (wire.ink.wire, hop.start.key, hop.end.key) for wire in shown.wires for hop in wire.jumpers
    ]
    assert all(length % 5 == 0 and length > 10 for *_, length in shown.jumpers)
