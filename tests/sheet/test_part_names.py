"""Names of lights and knobs in both pictures: nothing is on them, and a turned key's is turned."""

from itertools import combinations
from xml.etree import ElementTree

import pytest

from matrixgen.emit.sheet import sheet_of
from matrixgen.emit.sheet.component_shapes import NAME_MM, component_shapes
from matrixgen.jobs.examine import examine
from matrixgen.jobs.sheet import picture_names, pictures, sheet_of_examined
from matrixgen.resources import resource
from tests.examples.shipped import FOLDER
from tests.sheet.pictures import of_class
from tests.texts import keyboard_in

DESK = """\
keyboard "Desk"

plate
  line Q W E R ~1.5 Mute
  line A S D F
  cluster high at 7.4, 1.4 turned 90
  line Go
  light CapsLock at 4.5, 0.3
  light L at 4.8, 0.3
  light NumLock at 4.5, 0.7
  light Kana at 4.5, 1.1
  light above at 0.5, -0.2
  light below at 1, 2.2
  knob volume at 6, 0.5
  knob jog at 6.9, 1.9
  knob brightness at 4.5, 3

layer base
  Go = Enter
"""


def desk():
    return keyboard_in(DESK)


def room_of(one):
    (x, y), reach = one.at, one.room
    return (x - reach, y - reach, x + reach, y + reach)


def meet(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@pytest.mark.parametrize("from_behind", [False, True])
def test_no_name_is_on_another_one_on_a_part_or_on_a_key(from_behind):
    plate = desk().plate
    shapes = component_shapes(plate, from_behind=from_behind)
    names = {one.called: one.name.room for one in shapes}
    for one, other in combinations(names, 2):
        assert not meet(names[one], names[other]), (one, other)
    for one in shapes:
        assert not any(meet(names[one.called], room_of(other)) for other in shapes), one.called
    for called in ("light above", "light below"):
        _, top, _, bottom = names[called]
        assert bottom <= 0 or top >= 2 * 19.05, called


def test_the_name_of_a_knob_is_turned_with_its_key():
    sheet = sheet_of(desk(), "desk.keys", {"reason": "not asked for"}, None)
    root = ElementTree.fromstring(pictures(sheet)["front-base.svg"])
    (key,) = (one for one in of_class(root, "key") if one.get("data-key") == "Go")
    (turned,) = (one for one in key if of_class(one, "component-name"))
    assert turned.get("transform", "").startswith("rotate(90 ")


def test_the_style_sheet_draws_names_as_large_as_their_room_is_reckoned():
    style = (resource("templates") / "sheet/picture.css").read_text("utf-8")
    rule = next(line for line in style.splitlines() if line.startswith(".component-name"))
    assert f"font-size: {NAME_MM}px" in rule  # a picture's unit is a millimetre


@pytest.mark.parametrize("name", ["knot-21", "sanderling-25"])
def test_pictures_are_called_what_they_are_said_to_be_without_being_drawn(name):
    found = examine(str(FOLDER / name / f"{name}.keys"))
    sheet = sheet_of_examined(found, found.design, found.mounted[0])
    assert [f"{one}.svg" for one in picture_names(found.design)] == list(pictures(sheet))
