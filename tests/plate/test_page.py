"""The figures in the page of the plate, and in the pages of its rules, are those of the code."""

from __future__ import annotations

import re
from math import sqrt
from pathlib import Path

import pytest

from matrixgen.emit.legends.drawn import RULER_MM
from matrixgen.emit.legends.stickers import LESS_MM, ROOM_MM
from matrixgen.emit.plate_drawing.parts import GAP_MM, LAP_MM
from matrixgen.emit.plate_drawing.solid import CLIP_DEEP_MM, CLIPPED_MM
from matrixgen.jobs.plate import TEST_PIECE
from matrixgen.model.plate import (
    CUT_OUT_MM,
    HOUSING_MM,
    MARGIN_MM,
    RADIUS_MM,
    SCREWS,
    THICKNESS_MM,
    USUAL_SCREW,
)
from matrixgen.model.switch import RIM_MM, UNIT_MM
from matrixgen.plate.openings import openings_of
from matrixgen.plate.seams import CLEAR_MM
from matrixgen.plate.stabilisers import LEAST_UNITS, SHORT_MM
from matrixgen.rules.plate import hole_under_key, screw_head_on_housing, thin_web
from matrixgen.source.limits import LIMITS
from tests.plate.plates import read

PAGE = Path(__file__).parents[2] / "matrixgen" / "plate" / "README.md"
SMALL, MIDDLE, USUAL = SCREWS
HOUSING = "{:g} by {:g} mm".format(*HOUSING_MM)
BETWEEN_MM, BETWEEN_RIMS_MM = UNIT_MM - CUT_OUT_MM[0], UNIT_MM - RIM_MM

SAID = [
    "A switch gets a cut-out of {:g} by {:g} mm".format(*CUT_OUT_MM),
    f"another one, of {LIMITS.least_cut_out:g} to {LIMITS.cut_out:g} mm",
    f"A key that is {LEAST_UNITS:g} units long or more gets a stabiliser: "
    f"two cut-outs of {HOUSING}",
    f"gets a hole of {USUAL.hole_mm:g} mm, for an {USUAL.name} screw (ISO 273, medium); "
    f"with `for {MIDDLE.name}` one of {MIDDLE.hole_mm:g} mm, "
    f"with `for {SMALL.name}` one of {SMALL.hole_mm:g} mm",
    f"({MARGIN_MM:g} and {RADIUS_MM:g} mm without it",
    f"A solid is {THICKNESS_MM:g} mm thick",
    f"Switches clip onto {CLIPPED_MM:g} mm:",
    f"A printed plate of {CLIPPED_MM:g} mm bends",
    f"along lines that keep {CLEAR_MM:g} mm off every opening",
    f"laps {LAP_MM:g} mm over the back of the other, with {GAP_MM:g} mm of room",
    f"a wall of {CLEAR_MM - CLIP_DEEP_MM - GAP_MM / 2:.2f} mm may be all that is left",
    f"`thin-web` asks for {thin_web.LEAST_MM:g} mm",
    f"where less than {thin_web.LEAST_MM:g} mm of the plate is left between two openings",
    f"the housing of a switch, {RIM_MM:g} mm square",
    f"where four keys of one unit meet, that of an {SMALL.name} has",
    f"A cap is {LESS_MM:g} mm narrower than its key's field",
    "letters keep to {:g} by {:g} mm of a cap of one unit".format(*ROOM_MM),
    f"measure the line of {RULER_MM:g} mm at the head of a sheet",
]
"""What the page says with figures of the code."""

EXAMPLES = [
    "`cut-out 13.8 x 13.8 mm`",
    "some low-profile kinds want 13.8 mm, one of middle height 12.2 mm (from memory",
    "a little less than 14 mm",
    "`thickness 3 mm`",
    "`outline margin 8 mm radius 3 mm`",
    "`--bed 235x235`",
    "`--kerf 0.2`",
    "`--paper A4`",
    "(100 %)",
]
"""What else has figures in it."""


def words(text: str) -> str:
    return " ".join(text.split())


def test_the_page_has_the_figures_of_the_code():
    page = words(PAGE.read_text(encoding="utf-8"))
    assert [one for one in SAID if one not in page] == []


def test_the_page_has_no_other_figures():
    """A new one is to be compared with the code here, too."""
    page = words(PAGE.read_text(encoding="utf-8"))
    for one in (*SAID, *EXAMPLES):
        page = page.replace(one, "")
    assert re.findall(r".{,30}(?<![\w.])\d+(?:\.\d+)?\b", page) == []


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        (hole_under_key, f"{CUT_OUT_MM[0]:g} mm the cut-out of a switch"),
        (hole_under_key, f"{USUAL_SCREW.head_mm:g} mm are the head of an {USUAL.name} screw"),
        (hole_under_key, f"cut-outs are {BETWEEN_MM:.2f} mm apart"),
        (
            hole_under_key,
            f"An {MIDDLE.name} takes {MIDDLE.head_mm:g} mm, an {SMALL.name} {SMALL.head_mm:g} mm",
        ),
        (screw_head_on_housing, f"housing of a switch, {RIM_MM:g} mm square"),
        (screw_head_on_housing, f"Between two keys of one unit are {BETWEEN_RIMS_MM:.2f} mm"),
        (
            screw_head_on_housing,
            f"Heads: {SMALL.name} {SMALL.head_mm:g} and {MIDDLE.name} {MIDDLE.head_mm:g} mm "
            f"(ISO 7045, and 0.4 mm more), {USUAL.name} {USUAL.head_mm:g} mm",
        ),
        (thin_web, f"less than {thin_web.LEAST_MM:g} mm of it between them"),
        (thin_web, f"{CUT_OUT_MM[0]:g} mm for a switch (common practice, no source), {HOUSING}"),
        (
            thin_web,
            "The stabiliser of a key of 2 units leaves "
            f"{SHORT_MM - (CUT_OUT_MM[0] + HOUSING_MM[0]) / 2:.2g} mm, "
            f"an {SMALL.name} screw between two keys {(BETWEEN_MM - SMALL.hole_mm) / 2:.3g} mm, "
            f"an {USUAL.name} where four keys meet "
            f"{BETWEEN_MM / sqrt(2) - USUAL.hole_mm / 2:.2f} mm",
        ),
    ],
)
def test_the_pages_of_rules_have_the_figures_of_the_code(rule, said):
    assert said in words(rule.PROBLEM.page)


def test_which_heads_have_room_is_as_the_pages_say():
    """Where four keys meet, and between two."""
    corner = BETWEEN_RIMS_MM / sqrt(2)
    assert [one.name for one in SCREWS if one.head_mm / 2 < corner] == [SMALL.name]
    assert not [one.name for one in SCREWS if one.head_mm < BETWEEN_RIMS_MM]
    assert [one.name for one in SCREWS if one.head_mm < BETWEEN_MM] == [SMALL.name]


def test_a_test_piece_is_what_the_page_says():
    kinds = [one.kind for one in openings_of(read("test piece", TEST_PIECE).plate)]
    assert kinds == ["switch", "switch", "stabiliser", "stabiliser"]
    assert "`--test-piece` writes two cut-outs and a stabiliser" in words(PAGE.read_text())
