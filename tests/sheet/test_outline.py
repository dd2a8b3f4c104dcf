"""An outline with corners is drawn on both pictures, and the paper has room for all of it."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from shapely.geometry import Polygon

from matrixgen.cli.main import main
from matrixgen.plate.outline import flat, outline_of
from matrixgen.source import read_design

ELBOW = """\
keyboard "Elbow"
  controller stick-32u4

plate
  line A B C
  line D E
  {outline}

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row r0 on PD0 A B C
  row r1 on PD1 D E
  column c0 on PB1 A D
  column c1 on PB2 B E
  column c2 on PB3 C
"""
CORNERS = (
    "outline from -2, -0.4 to 3.4, -0.4 to 3.4, 1.4 to 2.4, 1.4 to 2.4, 4 to -2, 4 radius 5 mm"
)


def picture(folder, name, outline):
    path = folder / "elbow.keys"
    path.write_text(ELBOW.format(outline=outline), encoding="utf-8")
    drawn = folder / "elbow.svg"
    assert main(["sheet", str(path), "--drawing", name, "-o", str(drawn)]) == 0
    root = ElementTree.parse(drawn).getroot()
    edges = [one for one in root.iter() if one.get("class") == "plate-edge"]
    return root, edges, read_design(path)[0].keyboard.plate


@pytest.mark.parametrize(("name", "side"), [("front-base", 1), ("back", -1)])
def test_it_is_there_as_the_plate_is_cut(tmp_path: Path, name, side):
    root, (edge,), plate = picture(tmp_path, name, CORNERS)
    points = [tuple(map(float, at.split(","))) for at in edge.get("points").split()]
    wanted = Polygon([(side * x, y) for x, y in flat(outline_of(plate))])
    assert Polygon(points).symmetric_difference(wanted).area < 0.5
    left, top, width, height = map(float, root.get("viewBox").split())
    x, y, right, bottom = wanted.bounds
    assert left <= x and top <= y and right <= left + width and bottom <= top + height


@pytest.mark.parametrize("name", ["front-base", "back"])
def test_one_with_a_margin_is_not_drawn(tmp_path: Path, name):
    _, edges, _ = picture(tmp_path, name, "outline margin 3 mm")
    assert edges == []
