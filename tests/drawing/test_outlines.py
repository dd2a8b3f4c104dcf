"""The outline of a drawing: as corners and a radius where it has them, and never farther off."""

from __future__ import annotations

from math import cos, dist, pi, sin

import pytest
from shapely.affinity import translate
from shapely.geometry import Polygon

from matrixgen.model.plate import CornerOutline, Outline
from matrixgen.model.rings import in_order
from matrixgen.plate.openings import housings_of
from matrixgen.plate.outline import flat, outline_of
from tests.drawing.drawn import dxf_of, polygons, read_back, svg_of
from tests.plate.plates import UNIT, read
from tests.plate.test_corner_outlines import ARROW, ELBOW, text_of

KEYS = "line A B C D\n  line E F G H\n  line I J\n  line K L\n"
SWITCHES = [(x, y, 0.0) for x in (20, 39.05, 58.1) for y in (20, 39.05)]
FAR_MM = 0.02


def off_mm(plate, wanted: Polygon) -> float:
    """How far the plate's edge is from a line at most, either way."""
    return Polygon(flat(outline_of(plate))).exterior.hausdorff_distance(wanted.exterior)


def drawn_again(program, text, ending):
    """What `new` says of a plate's own drawing; the plate, and the one that comes of it."""
    program.write("pad.keys", text)
    assert program("plate", "pad.keys", "-o", f"pad.{ending}").status == 0
    made = program("new", "again", "--from", f"pad.{ending}")
    return made, read("x", text).plate, read(str(program.folder / "again.keys")).plate


@pytest.mark.parametrize("ending", ["dxf", "svg"])
@pytest.mark.parametrize("radius", [0, 2, 7.25, 15])
@pytest.mark.parametrize("corners", [ELBOW, ARROW, [*ELBOW[:1], (5, 0.3), *ELBOW[2:]]])
def test_a_plate_that_is_drawn_comes_back_with_its_corners(program, corners, radius, ending):
    text = text_of(corners, radius, keys=KEYS)
    made, plate, again = drawn_again(program, text, ending)
    assert made.status == 0 and "outline" not in made.err
    assert isinstance(again.outline, CornerOutline)
    assert off_mm(again, Polygon(flat(outline_of(plate)))) <= FAR_MM
    assert len(again.outline.corners) == len(in_order(corners))
    assert again.outline.radius == pytest.approx(radius, abs=0.01)


@pytest.mark.parametrize("ending", ["dxf", "svg"])
def test_wide_arcs_that_follow_each_other_are_written_in_pieces_or_listed(program, ending):
    """No side is left between them that tells where the corner was."""
    text = text_of(ELBOW, 30, keys=KEYS)
    made, plate, again = drawn_again(program, text, ending)
    if again.outline is None:
        assert "outline round everything" in made.err
    else:
        assert off_mm(again, Polygon(flat(outline_of(plate)))) <= FAR_MM


RECTANGLES = {
    "": None,
    "outline margin 11.35 mm radius 3.2 mm": Outline,
    "outline margin 0 mm radius 0 mm": Outline,
    "outline from -1, -0.5 to 5, -0.5 to 5, 5 to -1, 5 radius 2.5 mm": CornerOutline,
}


@pytest.mark.parametrize("ending", ["dxf", "svg"])
@pytest.mark.parametrize("said", RECTANGLES)
def test_a_rectangle_comes_back_as_a_margin_if_it_is_one(program, said, ending):
    text = f"plate\n  {KEYS}  hole at 2, 2.5\n  {said}\n"
    made, plate, again = drawn_again(program, text, ending)
    assert made.status == 0 and "outline" not in made.err
    assert type(again.outline) is (RECTANGLES[said] or type(None))
    assert off_mm(again, Polygon(flat(outline_of(plate)))) <= FAR_MM


@pytest.mark.parametrize("ending", ["dxf", "svg"])
@pytest.mark.parametrize("bare", [(), ("B",), ("D", "F"), ("B", "D", "F")])
def test_stabilisers_come_back(program, bare, ending):
    """Where the drawing has none at all, it may have another kind, so that nothing is said."""
    none = f"  stabiliser none {' '.join(bare)}\n" if bare else ""
    text = f"plate\n  line A B:2 C\n  line D:2.25 E G\n  line F:6.25\n{none}"
    made, plate, again = drawn_again(program, text, ending)
    assert made.status == 0 and "7.00 × 15.00" not in made.err
    wanted = {one.middle for one in housings_of(plate)}
    found = {one.middle for one in housings_of(again)}
    assert len(found) == len(wanted) or not wanted
    assert all(min(dist(one, other) for other in found) < 0.02 for one in wanted)


def test_a_cut_out_of_that_size_elsewhere_is_listed(tmp_path, capsys):
    odd = Polygon([(100, 100), (107, 100), (107, 115), (100, 115)])
    shapes = polygons(SWITCHES) + line_of(odd.exterior.coords[:-1])
    read_back(tmp_path, svg_of(shapes), "plate.svg")
    assert "closed outline, 7.00 × 15.00 mm" in capsys.readouterr().err


def line_of(points):
    return f'<polygon points="{" ".join(f"{x:.4f},{y:.4f}" for x, y in points)}"/>'


def moved(points):
    """As the plate has it, whose corner is that of the first key's field."""
    return Polygon([(x - 20 + UNIT / 2, y - 20 + UNIT / 2) for x, y in points])


def test_an_outline_that_is_a_curve_is_written_in_pieces(tmp_path, capsys):
    turns = [n * 2 * pi / 400 for n in range(400)]
    oval = [(39 + 45 * cos(a), 30 + 32 * sin(a)) for a in turns]
    keyboard = read_back(tmp_path, svg_of(polygons(SWITCHES) + line_of(oval)), "plate.svg")
    outline = keyboard.plate.outline
    assert outline is None or off_mm(keyboard.plate, moved(oval)) <= FAR_MM


def test_a_dozen_corners_of_different_radii_are_followed(tmp_path):
    style = {"join_style": "mitre"}
    sharp = Polygon([(5, 5), (75, 5), (75, 30), (60, 30), (60, 55), (5, 55)])
    one = sharp.buffer(-4, **style).buffer(4, quad_segs=16)
    points = list(one.buffer(9, **style).buffer(-9, quad_segs=24).exterior.coords)[:-1]
    keyboard = read_back(tmp_path, svg_of(polygons(SWITCHES) + line_of(points)), "plate.svg")
    assert isinstance(keyboard.plate.outline, CornerOutline)
    assert off_mm(keyboard.plate, moved(points)) <= FAR_MM


@pytest.mark.parametrize("shape", ["sharp", "round", "uneven"])
def test_a_rectangle_that_no_margin_says_has_corners(tmp_path, capsys, shape):
    frame = Polygon([(5, 5), (75, 5), (75, 55), (5, 55)])
    if shape == "round":
        frame = frame.buffer(-3, join_style="mitre").buffer(3)
    if shape == "uneven":
        frame = Polygon([(5, 5), (75, 5), (75, 95), (5, 95)])
    points = list(frame.exterior.coords)[:-1]
    keyboard = read_back(tmp_path, svg_of(polygons(SWITCHES) + line_of(points)), "plate.svg")
    assert isinstance(keyboard.plate.outline, CornerOutline)
    left, top = (min(one[axis] for one in SWITCHES) - UNIT / 2 for axis in (0, 1))
    assert off_mm(keyboard.plate, translate(frame, -left, -top)) <= FAR_MM
    assert "outline round everything" not in capsys.readouterr().err


@pytest.mark.parametrize(
    "points",
    [
        [(5, 5), (75, 5), (5, 55), (75, 55)],
        [(5, 5), (75, 5), (75, 30), (75.01, 30), (75.01, 30.01), (60, 55), (5, 55)],
        [(5 + n / 7, 5 - (n % 2) * 3) for n in range(500)] + [(75, 55), (5, 55)],
        [(5, 5), (75, 5), (99, 30), (75, 30), (75, 55), (5, 55), (5, 54.99)],
    ],
)
def test_whatever_an_outline_is_the_file_reads(tmp_path, points):
    """One that crosses itself, has tiny sides or too many is left out, or is near enough."""
    keyboard = read_back(tmp_path, svg_of(polygons(SWITCHES) + line_of(points)), "plate.svg")
    if keyboard.plate.outline:
        assert off_mm(keyboard.plate, moved(points)) <= FAR_MM


def test_one_from_behind_is_turned_round(tmp_path):
    corners = [(5, 5), (75, 5), (75, 30), (60, 30), (60, 55), (5, 55)]
    behind = [(-x, y) for x, y in corners]
    switches = [(-x, y, 0.0) for x, y, _ in SWITCHES]
    drawing = svg_of(polygons(switches) + line_of(behind))
    keyboard = read_back(tmp_path, drawing, "plate.svg", "--mirrored")
    assert off_mm(keyboard.plate, moved(corners)) <= FAR_MM


def test_a_drawing_without_an_outline_gives_none(tmp_path):
    assert read_back(tmp_path, dxf_of(SWITCHES)).plate.outline is None
