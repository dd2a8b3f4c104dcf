"""Contacts: where each key's two wires meet, and which way its diode points between them."""

import pytest

from matrixgen.model import matrix_of
from matrixgen.source import read_design
from tests.language.whole import completed
from tests.texts import keyboard_in

WIRING = """\
wiring
  drive {drive}s, sense {sense}s
  {diodes}
  row    r0  A B
  row    r1  C D
  column c0  A C
  column c1  B D
"""


def contacts(drive, sense, diodes):
    text = completed(WIRING.format(drive=drive, sense=sense, diodes=diodes))
    return {one.key: one for one in matrix_of(keyboard_in(text)).contacts}


@pytest.mark.parametrize(
    ("drive", "toward", "common", "turned"),
    [
        ("row", "row", "toward", "away"),
        ("row", "column", "away", "toward"),
        ("column", "column", "toward", "away"),
        ("column", "row", "away", "toward"),
    ],
)
def test_a_band_points_toward_the_driven_wire_or_away_from_it(drive, toward, common, turned):
    sense = "column" if drive == "row" else "row"
    diodes = f"diodes 1N4148, band toward {toward}s\n  reversed B\n  without diode C"
    found = contacts(drive, sense, diodes)
    assert {key: one.diode for key, one in found.items()} == {
        "A": common,
        "B": turned,
        "C": "none",
        "D": common,
    }


def test_a_contact_has_the_numbers_of_its_driven_and_its_sensed_line():
    found = contacts("column", "row", "diodes 1N4148, band toward columns")
    places = {key: (one.drive, one.sense) for key, one in found.items()}
    assert places == {"A": (0, 0), "B": (1, 0), "C": (0, 1), "D": (1, 1)}
    found = contacts("row", "column", "diodes 1N4148, band toward rows")
    places = {key: (one.drive, one.sense) for key, one in found.items()}
    assert places == {"A": (0, 0), "B": (0, 1), "C": (1, 0), "D": (1, 1)}


def test_a_key_that_a_wire_lacks_has_no_contact():
    text = completed("wiring\n  row r A B\n  column c A\n")
    design, _ = read_design("pad.keys", text)
    assert [one.key for one in matrix_of(design.keyboard).contacts] == ["A"]
