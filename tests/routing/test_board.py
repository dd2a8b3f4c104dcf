"""The controller's board behind the plate: where its pads are, and the wires that go to them.

Places are worked out a second time by shapely: the board seen from its parts' side, turned over
about its upright axis, turned, and moved.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from shapely import LineString, Point, Polygon, affinity

from matrixgen.boards import builtin_profile
from matrixgen.routing import back_of
from matrixgen.routing.board import board_on_plate
from tests.boards.chip_facts import table
from tests.texts import examined

UNIT = 19.05
OUTLINES = {row["profile"]: row for row in table("outlines.csv")}
PAD = """\
keyboard "Pad"
  controller {name}

plate
  line Q W E ~4 R T Y
  line A S D ~4 F G H
  line Z X C ~4 V B N
  controller at {place}

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on {pins[0]}   Q to Y
  row    r1          on {pins[1]}   A to H
  row    r2          on {pins[2]}   Z to N
  column c0          on {pins[3]}   Q A Z
  column c1          on {pins[4]}   W S X
  column c2          on {pins[5]}   E D C
  column c3          on {pins[6]}   R F V
  column c4          on {pins[7]}   T G B
  column c5          on {pins[8]}   Y H N
"""


def mounted(name: str, place: str):
    edges = builtin_profile(name).edges
    usable = {pin.name for pin in builtin_profile(name).usable_pins if pin.use == "free"}
    pins = [pin for edge in edges for pin in edge.names if pin in usable and edge.side != "bottom"]
    text = PAD.format(name=name, place=place, pins=[*pins[:5], *pins[-4:]])
    return examined(text).mounted[0]


def board_of(keyboard):
    return board_on_plate(keyboard.keyboard.plate, keyboard.profile)


def expected(name: str, x: float, y: float, turned: float, shape):
    """A shape of the board in its table's frame, as it lies behind the plate, from the front."""
    row = OUTLINES[name]
    over = affinity.scale(shape, -1, 1, origin=(float(row["width_mm"]) / 2, 0))
    moved = affinity.translate(over, x * UNIT - float(row["width_mm"]) / 2, y * UNIT)
    return affinity.rotate(moved, turned, origin=(x * UNIT, y * UNIT))


@pytest.mark.parametrize("turned", [0, 90, -37.5, 180])
@pytest.mark.parametrize("name", OUTLINES)
def test_outline_and_pads_lie_where_a_board_that_is_turned_over_has_them(name, turned):
    row, board = OUTLINES[name], board_of(mounted(name, f"4.5, 1 turned {turned}"))
    width, length = float(row["width_mm"]), float(row["length_mm"])
    outline = Polygon([(0, 0), (width, 0), (width, length), (0, length)])
    there = expected(name, 4.5, 1, turned, outline)
    assert Polygon(board.corners).symmetric_difference(there).area < 0.1
    left = next(edge for edge in builtin_profile(name).edges if edge.side == "left")
    for number, pin in enumerate(left.names):
        if pin in board.pads:
            at = Point(float(row["left_row_mm"]), float(row["first_pad_mm"]) + number * 2.54)
            assert Point(board.pads[pin].at).distance(expected(name, 4.5, 1, turned, at)) < 0.1


@pytest.mark.parametrize("place", ["4.9, 0", "5, 2.9 turned 180", "3.5, 1.5 turned 270"])
@pytest.mark.parametrize("name", ["rp2040-40pin", "stick-32u4"])
def test_wires_reach_their_pads_and_none_lies_under_the_board(name, place):
    keyboard = mounted(name, place)
    back = back_of(keyboard.keyboard, apart=True, mounted=keyboard)
    assert back.board.is_between_keys
    inside = Polygon(back.board.corners).buffer(-0.1)
    for run in back.runs:
        pad = back.board.pads[keyboard.pin_of(run.line).name]
        assert run.lead.route[0] == pad.at
        assert run.lead.route[-1] == run.joints[0].at
        length = sum(LineString(piece).length for piece in pairwise(run.lead.route))
        assert run.lead.length_mm == pytest.approx(length)
        ways = [run.lead.route[1:], *(hop.route for hop in run.hops)]
        assert not any(LineString(way).intersects(inside) for way in ways)
    assert not back.left_out


def test_a_board_over_switches_is_in_no_wire_s_way():
    keyboard = mounted("rp2040-40pin", "1, 0.5")
    plain = back_of(keyboard.keyboard)
    with_board = back_of(keyboard.keyboard, mounted=keyboard)
    assert not with_board.board.is_between_keys
    assert [run.hops for run in with_board.runs] == [run.hops for run in plain.runs]
    assert all(run.lead.route for run in with_board.runs)


def test_without_a_place_or_an_outline_nothing_is_known_of_the_wires_to_the_controller():
    for name in ("rp2040-40pin", "atmega32u4"):
        keyboard = mounted("rp2040-40pin", "4.9, 0") if name == "atmega32u4" else None
        text = PAD.format(name=name, place="5, 0", pins=["PB0"] * 9)
        text = text if name == "atmega32u4" else text.replace("  controller at 5, 0\n", "")
        assert board_of(examined(text).mounted[0]) is None
        assert keyboard is None or board_of(keyboard) is not None
