"""A plate that is drawn, read back from its drawing, and drawn again, is the same plate."""

from __future__ import annotations

import pytest

from matrixgen.plate.openings import Bar, Circle, openings_of
from tests.plate.plates import NAMES, keyboard_of, read

M3_MM = 3.4
"""The hole for a screw M3: ISO 273, medium fit."""


def places(plate):
    """Return what goes through, from its leftmost and uppermost switch on, as it comes back.

    Stabilisers follow from the keys, and a knob's hole is too wide for a screw: it is told.
    The hole of a light, 3.2 mm across, is read as that of a screw M3.
    """
    found = [one for one in openings_of(plate) if one.kind not in ("stabiliser", "knob")]
    left = min(one.middle[0] for one in found if isinstance(one, Bar))
    top = min(one.middle[1] for one in found if isinstance(one, Bar))
    return sorted(
        (
            "hole" if one.kind == "light" else one.kind,
            round((one.middle[0] - left) * 20) / 20,
            round((one.middle[1] - top) * 20) / 20,
            M3_MM if one.kind == "light" else one.diameter if isinstance(one, Circle) else 14,
        )
        for one in found
    )


@pytest.mark.few(8)
@pytest.mark.parametrize("ending", ["dxf", "svg"])
@pytest.mark.parametrize("name", NAMES)
def test_an_example_comes_back(program, name, ending):
    keyboard = keyboard_of(name)
    path = keyboard.plate.span.path
    assert program("plate", path, "-o", f"plate.{ending}").status == 0
    taken = program("new", "again", "--from", f"plate.{ending}")
    assert taken.status == 0
    knobs = [one for one in keyboard.plate.components if one.kind == "knob"]
    assert taken.err.count("circle, 7.20 mm across") == len(knobs)
    again = read(str(program.folder / "again.keys"))
    for one, other in zip(places(keyboard.plate), places(again.plate), strict=True):
        assert (one[0], one[3]) == (other[0], other[3])
        assert abs(one[1] - other[1]) <= 0.05 and abs(one[2] - other[2]) <= 0.05


def test_holes_keep_their_screws(program):
    text = "plate\n  line A B\n  hole at 3, 0 for M2\n  hole at 3, 1 for M2.5\n  hole at 3, 2\n"
    program.write("pad.keys", text)
    assert program("plate", "pad.keys", "-o", "pad.svg").status == 0
    assert program("new", "again", "--from", "pad.svg").status == 0
    again = read(str(program.folder / "again.keys"))
    assert [hole.nominal for hole in again.plate.holes] == [2.0, 2.5, 3.0]
