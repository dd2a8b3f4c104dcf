"""A key in the middle of a knob is the switch in it: no cut-out, no cap, an encoder's legs.

The places are those of KiCad's footprint of an encoder of 11 mm with a switch: shaft at
(7.5, -2.5), switch at (14.5, 0) and (14.5, -5), body 12.0 by 11.6, in millimetres from leg A, y
upwards.
"""

from __future__ import annotations

import pytest

from matrixgen.emit.sheet import Sheet
from matrixgen.plate.openings import openings_of
from matrixgen.routing.places import placed
from tests.sheet.pictures import sheet_in
from tests.texts import examined, keyboard_in

SHAFT, SWITCH = (7.5, -2.5), {(14.5, 0.0), (14.5, -5.0)}
UNIT = 19.05

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B Mute{size}
  knob volume at {place}

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0 A B Mute
  column c0 on PB0 A
  column c1 on PB1 B
  column c2 on PB2 Mute
  knob volume on PB3 PB4

layer base
  volume.left = VolumeDown  volume.right = VolumeUp
"""

PRESSED = PAD.format(size="", place="2.5, 0.5")
BESIDE = PAD.format(size="", place="4, 0.5")


def sheet(text: str) -> Sheet:
    assert not examined(text).findings
    return sheet_in(text)


@pytest.mark.parametrize(("text", "switches"), [(PRESSED, 2), (BESIDE, 3)])
def test_the_plate_has_a_cut_out_for_each_switch_that_is_not_in_a_knob(text, switches):
    kinds = [one.kind for one in openings_of(keyboard_in(text).plate)]
    assert kinds.count("switch") == switches
    assert kinds.count("knob") == 1


def test_a_long_key_in_a_knob_has_no_stabiliser():
    plate = keyboard_in(PAD.format(size=":2", place="3, 0.5")).plate
    assert {one.kind for one in openings_of(plate)} == {"switch", "knob"}


def test_its_legs_are_those_of_the_encoder():
    mute = placed(keyboard_in(PRESSED), "row")[2]
    from_shaft = {(x - SHAFT[0], SHAFT[1] - y) for x, y in SWITCH}
    middle = 2.5 * UNIT, 0.5 * UNIT
    legs = {
        tuple(round(a - b, 6) for a, b in zip(leg, middle, strict=True))
        for leg in (mute.near, mute.far)
    }
    assert legs == from_shaft
    wide, high = (max(axis) - min(axis) for axis in zip(*mute.body, strict=True))
    assert (round(wide, 6), round(high, 6)) == (12.0, 11.6)


def test_nobody_buys_a_switch_or_a_cap_for_it():
    pressed = {one.what: one.amount for one in sheet(PRESSED).bought}
    beside = {one.what: one.amount for one in sheet(BESIDE).bought}
    assert pressed["switches that fit a cut-out of 14 × 14 mm"] == "2"
    assert pressed["keycaps of 1 unit"] == "2"
    assert pressed["knob: an encoder of 11 mm with a switch, and its cap"] == "1"
    assert beside["switches that fit a cut-out of 14 × 14 mm"] == "3"
    assert beside["knob: an encoder of 11 mm with its cap"] == "1"


def test_it_is_drawn_as_a_knob():
    front = sheet(PRESSED).front
    assert [key.knob for key in front.keys] == [None, None, ("volume", 16.7 / 2)]
    assert not front.bare.components


def test_a_knob_beside_the_middle_is_told_where_that_is():
    findings = examined(PAD.format(size="", place="2.6, 0.5")).findings
    found = next(one for one in findings if one.slug == "part-over-switch")
    assert "if `Mute` is the switch in the knob, write `at 2.5, 0.5`" in " ".join(found.helps)
