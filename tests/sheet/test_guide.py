"""The drawing of one switch: its legs where the big picture has them, its words whole."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from matrixgen.emit.sheet.font import width_of
from matrixgen.emit.sheet.guide import guide_of, steps_of
from matrixgen.emit.sheet.pictures import markup
from matrixgen.model.plate import CUT_OUT_MM
from tests.examples.shipped import NAMES
from tests.plate.plates import is_pressed_by_knob
from tests.sheet.pictures import of_class, sheet

SIZE_MM = 2.4


@pytest.mark.parametrize("name", NAMES)
def test_legs_and_diode_lie_as_on_every_switch_of_the_plate_that_is_not_turned(name):
    shown = sheet(name)
    plate = shown.keyboard.plate
    straight = {
        key.name.text for key in plate.keys if not key.turned and not is_pressed_by_knob(plate, key)
    }
    switches = [one for one in shown.back.switches if one.key in straight]
    assert switches
    for one in switches:
        legs = {(round(x - one.middle[0], 2), round(y - one.middle[1], 2)) for x, y in one.legs}
        assert legs == {shown.guide.near, shown.guide.far}
        assert all(y < 0 for _, y in legs), "both in the upper half"


@pytest.mark.parametrize("axis", ["row", "column"])
@pytest.mark.parametrize("has_diodes", [True, False])
def test_its_words_are_not_cut_and_name_the_wires(axis, has_diodes):
    guide = guide_of(CUT_OUT_MM, axis, has_diodes=has_diodes)
    text = markup().get_template("sheet/guide.svg.j2").render(guide=guide)
    root = ElementTree.fromstring(text)
    left, _, width, _ = map(float, root.attrib["viewBox"].split())
    for one in of_class(root, "guide-text"):
        at, long = float(one.attrib["x"]), width_of(one.text, SIZE_MM)
        start = at - long if one.get("text-anchor") == "end" else at
        assert left <= start and start + long <= left + width
    other = "column" if axis == "row" else "row"
    assert f"{other} wire" in guide.near_word and f"{axis} wire" in guide.far_word
    assert ("diode" in guide.far_word) == has_diodes == (guide.diode_end is not None)
    steps = steps_of(axis, has_diodes=has_diodes)
    assert "both legs" in steps[0] and "controller" in steps[-1]
    assert any("diode" in step for step in steps) == has_diodes
