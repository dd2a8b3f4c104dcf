"""Outlines with corners of their own: drawings and solids against shapely's own geometry."""

from __future__ import annotations

import io
from xml.etree import ElementTree

import pytest
import trimesh
from shapely import union_all
from shapely.geometry import LineString, Polygon

from matrixgen.emit.plate_drawing.dxf import plate_dxf
from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.plate import PlateOptions, division_for, plate_file, summary_of
from matrixgen.plate.division import Division
from matrixgen.plate.outline import flat, is_too_fine
from matrixgen.plate.shape import plate_shape
from tests.plate.plates import UNIT, differ, differ_at_most, holes, in_field, read, switches
from tests.plate.test_drawings import drawing_of, shapes
from tests.plate.test_solids import solid_of

KEYS = "line A B C D\n  line E F G H\n  line I J\n  line K L\n  hole at 2, 2\n"
ELBOW = [(-0.4, -0.4), (4.4, -0.4), (4.4, 2.4), (2.4, 2.4), (2.4, 4.4), (-0.4, 4.4)]
ARROW = [(-0.5, -1.5), (2, -0.5), (4.5, -1.5), (6, 1), (4.5, 2.5), (2.5, 4.5), (-0.5, 4.5)]
OUTLINES = {
    "elbow": (ELBOW, 2),
    "elbow, the other way round": (ELBOW[::-1], 3.5),
    "elbow, sharp": (ELBOW, 0),
    "arrow": (ARROW, 8),
    "arrow, sharp": (ARROW[3:] + ARROW[:3], 0),
}


def text_of(corners, radius, keys=KEYS, more=""):
    said = " to ".join(f"{x:g}, {y:g}" for x, y in corners)
    return f"plate\n  {keys}  outline from {said} radius {radius:g} mm\n{more}"


def truth(corners, radius) -> Polygon:
    """Return the shape with its corners rounded, outer ones and inner ones."""
    sharp = Polygon([(x * UNIT, y * UNIT) for x, y in corners])
    if not radius:
        return sharp
    style = {"join_style": "mitre", "mitre_limit": 100}
    outer = sharp.buffer(-radius, **style).buffer(radius, quad_segs=64)
    return outer.buffer(radius, **style).buffer(-radius, quad_segs=64)


@pytest.mark.parametrize("release", ["R12", "R2010"])
@pytest.mark.parametrize("name", OUTLINES)
def test_the_drawing_has_the_outline_of_the_file(name, release):
    plate = read("x", text_of(*OUTLINES[name])).plate
    drawing = drawing_of(plate_dxf(plate_shape(plate), release, ()))
    (around,) = shapes(drawing, "OUTLINE")
    assert differ(around, truth(*OUTLINES[name])) < 0.2
    assert differ_at_most(switches(plate), shapes(drawing, "SWITCHES")) < 0.02


@pytest.mark.parametrize("kerf", [0.2, 0.8])
@pytest.mark.parametrize("name", OUTLINES)
def test_after_a_cut_the_outline_is_the_file_s(name, kerf):
    """What is lost is half of the cut, inside of inner corners too."""
    plate = read("x", text_of(*OUTLINES[name])).plate
    (around,) = shapes(drawing_of(plate_dxf(plate_shape(plate, kerf), "R2010", ())), "OUTLINE")
    style = {"join_style": "mitre", "mitre_limit": 100}
    corners, radius = OUTLINES[name]
    half = kerf / 2
    sharp = Polygon([(x * UNIT, y * UNIT) for x, y in corners]).buffer(half, **style)
    wanted = sharp
    if radius:
        outer = sharp.buffer(-radius - half, **style).buffer(radius + half, quad_segs=64)
        inner = radius - half
        wanted = outer.buffer(inner, **style).buffer(-inner, quad_segs=64)
    assert differ(around, wanted) < 0.2


@pytest.mark.parametrize("name", OUTLINES)
def test_the_svg_has_the_same_outline(name):
    keyboard = read("x", text_of(*OUTLINES[name]))
    root = ElementTree.fromstring(plate_file(keyboard, ".svg", PlateOptions()))
    (group,) = (one for one in root.iter() if one.get("id") == "outline")
    path = group.get("d") or next(iter(group)).get("d")
    corners = [one.at for one in plate_shape(keyboard.plate).outline]
    assert path.count("L") + path.count("A") == len(corners)
    for x, y in corners:
        assert f"{x:.4f} {y:.4f}" in path


@pytest.mark.parametrize("kind", [".stl", ".3mf"])
@pytest.mark.parametrize("name", OUTLINES)
def test_the_solid_is_closed_and_as_large_as_its_areas_say(name, kind):
    more = "  thickness 3 mm\n  cut-out 13.9 x 13.8 mm\n"
    keyboard = read("x", text_of(*OUTLINES[name], more=more))
    plate = keyboard.plate
    solid = solid_of(plate_file(keyboard, kind, PlateOptions()), kind)
    assert solid.is_watertight and solid.is_winding_consistent and solid.body_count == 1
    around, gone = truth(*OUTLINES[name]), [*switches(plate, 13.9, 13.8), *holes(plate)]
    behind = union_all([*gone, *(in_field(key, 0, 0, 5, 16.8) for key in plate.keys)])
    volume = around.difference(union_all(gone)).area * 1.5
    volume += around.difference(behind).area * 1.5
    assert solid.volume == pytest.approx(volume, rel=3e-4)


@pytest.mark.parametrize("bed", [(60, 100), (70, 70)])
@pytest.mark.parametrize("name", ["elbow", "arrow"])
def test_it_is_divided_for_a_bed(name, bed):
    keyboard = read(
        "x", text_of(*OUTLINES[name], keys="line A B C D\n  line E F G H\n  line I J\n")
    )
    division = division_for(keyboard, (bed[0], 130))
    assert isinstance(division, Division) and division.seams
    content = plate_file(keyboard, ".3mf", PlateOptions(division=division))
    parts = trimesh.load(io.BytesIO(content), file_type="3mf").geometry.values()
    whole = solid_of(plate_file(keyboard, ".stl", PlateOptions()), ".stl")
    room = sorted((bed[0] + 0.5, 130.5))
    for part in parts:
        assert part.is_watertight
        assert all(side <= most for side, most in zip(sorted(part.extents[:2]), room, strict=True))
    assert sum(part.volume for part in parts) == pytest.approx(whole.volume, rel=0.005)


@pytest.mark.parametrize("inner", [2.0, 2.05, 1.95])
def test_a_seam_leaves_no_thin_strip_beside_an_inner_side(inner):
    """The plate's middle is where its inner side is: straight down would be along it."""
    corners = [*ELBOW[:3], (inner, 2.4), (inner, 6.4), (-0.4, 6.4)]
    keyboard = read("x", text_of(corners, 2, keys="line A B C D\n  line E F G H\n  line I J\n"))
    division = division_for(keyboard, (60, 200))
    assert isinstance(division, Division)
    (seam,) = division.seams
    edge = Polygon(flat(plate_shape(keyboard.plate).outline))
    beside = LineString(seam).intersection(edge.exterior.buffer(1.5).intersection(edge))
    assert beside.length < 10


def test_the_summary_says_how_large_it_is():
    keyboard = read("x", text_of(ELBOW, 2))
    wide, high = 4.8 * UNIT, 4.8 * UNIT
    assert summary_of(keyboard).startswith(f"{wide:.1f} by {high:.1f} mm, 12 switches")


def test_a_notch_that_a_cut_closes_is_told():
    """Half a millimetre wide, it has room for a narrower cut alone."""
    notch = 0.5 / UNIT
    corners = [
        (-1, -1),
        (5, -1),
        (5, 5),
        (2 + notch, 5),
        (2 + notch, 4.6),
        (2, 4.6),
        (2, 5),
        (-1, 5),
    ]
    plate = read("x", text_of(corners, 0)).plate
    assert is_too_fine(plate, 0.6)
    assert not is_too_fine(plate, 0.4) and not is_too_fine(plate, 0)


def findings(corners, radius, more=""):
    found = examine_text("x", text_of(corners, radius, more=more), None)
    of_screws = "screw-head-on-housing"  # the holes here are near to switches
    return [(one.slug, one.message) for one in found.findings if one.slug != of_screws]


def test_an_opening_with_just_enough_beside_it_is_fine():
    """A cut-out of 14 mm leaves 2.525 mm to the end of its key's field."""
    end = 1.3 - 2.525
    out = [(-0.4, -0.4), (4 + end / UNIT, -0.4), (4 + end / UNIT, 2.4), *ELBOW[3:]]
    assert findings(out, 0) == []
    near = [(x - 0.001 * (x > 3), y) for x, y in out]
    assert {slug for slug, _ in findings(near, 0)} == {"thin-web"}
    assert {words for _, words in findings(near, 0)} == {
        f"1.3 mm of the plate is left between the cut-out of `{key}` and the plate's edge"
        for key in "DH"
    }


def test_an_inner_corner_is_an_edge_too():
    inside = [*ELBOW[:3], (1.9, 2.4), (1.9, 4.4), ELBOW[5]]
    assert {words.split("`")[1] for _, words in findings(inside, 0)} == {"J", "L"}
    spike = [*ELBOW[:2], (4.4, 2.4), (2.4, 2.4), (1.5, 1.5), (2.4, 2.5), *ELBOW[4:]]
    assert any("cut-out of `F`" in words for _, words in findings(spike, 0))


def test_what_lies_outside_is_told_at_once():
    away = [(x + 20, y) for x, y in ELBOW]
    ((slug, words),) = findings(away, 0)
    assert slug == "thin-web" and words == (
        "the cut-out of `A`, the cut-out of `B`, the cut-out of `C` and 10 more openings lie "
        "outside of the plate's outline"
    )
