"""Which keys get a stabiliser, and where its posts are: against a table of somebody else."""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.plate.openings import Bar, openings_of
from matrixgen.plate.stabilisers import offset_mm, stabilisers_of
from tests.documents import rows_of
from tests.plate.plates import read

DATA = Path(__file__).parent / "data" / "stabilisers.csv"


def rows():
    for row in rows_of(DATA):
        if row["width_units"].replace(".", "").isdigit():
            yield float(row["width_units"]), float(row["post_offset_mm"])


@pytest.mark.parametrize(("units", "offset"), list(rows()))
def test_posts_are_as_far_from_the_switch_as_the_table_says(units, offset):
    assert offset_mm(units) == pytest.approx(offset, abs=0.01)


def test_the_file_says_which_keys_have_none():
    plate = read("x", "plate\n  stabilizer none C\n  line A:2 B C:6.25\n").plate
    housings = [one for one in openings_of(plate) if one.kind == "stabiliser"]
    assert [one.key for one in housings if isinstance(one, Bar)] == ["A", "A"]


def test_keys_of_two_units_and_more_have_one():
    keys = read("x", "plate\n  line A:1.75 B:2 C:6.25 D:1x2 E:2x2 F:1.5x2.25 G:1x1.75\n").plate.keys
    found = {one.key.name.text: one.is_upright for one in stabilisers_of(keys)}
    assert found == {"B": False, "C": False, "D": True, "E": False, "F": True}
    assert [one.key.name.text for one in stabilisers_of(keys, frozenset({"B", "F"}))] == [
        "C",
        "D",
        "E",
    ]
