"""A plate that is drawn, read back from its drawing, and drawn again, is the same plate."""

from __future__ import annotations

import pytest

from matrixgen.plate.openings import Bar, Circle, openings_of
from tests.plate.plates import NAMES, keyboard_of, read


def places(plate):
    """Return what goes through, from its leftmost and uppermost switch on, as it comes back.

    Stabilisers follow from the keys, and a knob's hole is too wide for a screw: it is told.
    The hole of a light may be a screw's: it is in a comment.
    """
    found = [one for one in openings_of(plate) if one.kind not in ("stabiliser", "knob", "light")]
    left = min(one.middle[0] for one in found if isinstance(one, Bar))
    top = min(one.middle[1] for one in found if isinstance(one, Bar))
    return sorted(
        (
            one.kind,
            round((one.middle[0] - left) * 20) / 20,
            round((one.middle[1] - top) * 20) / 20,
            one.diameter if isinstance(one, Circle) else 14,
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
    text = (program.folder / "again.keys").read_text("utf-8")
    lights = [one for one in keyboard.plate.components if one.kind == "light"]
    assert text.count("`light NAME at ") == len(lights)
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
