"""What becomes of holes, outlines, layers, curves and all that is no switch."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from ezdxf import units

from tests.drawing.drawn import (
    NEAR_MM,
    UNIT,
    corners,
    dxf_of,
    dxf_text,
    error_mm,
    new_dxf,
    polygons,
    read_back,
    svg_of,
    switches_of,
    up,
)

PAIR = [(0.0, 0.0, 0.0), (UNIT, 0.0, 0.0)]


@pytest.fixture
def pair():
    document = new_dxf()
    for switch in PAIR:
        document.modelspace().add_lwpolyline(up(corners(switch)), close=True)
    return document


def test_a_round_hole_of_2_to_4_mm_is_a_screw_hole(tmp_path, pair, capsys):
    for number, diameter in enumerate((1.98, 2.0, 3.4, 4.0, 4.02)):
        pair.modelspace().add_circle((number * UNIT, UNIT), diameter / 2)
    plate = read_back(tmp_path, dxf_text(pair)).plate
    assert [(hole.x, hole.y) for hole in plate.holes] == [(n + 0.5, -0.5) for n in (1, 2, 3)]
    told = capsys.readouterr().err
    assert "circle, 1.98 mm across, at 0.00, 19.05 mm, layer `0`" in told
    assert "circle, 4.02 mm across" in told


def test_a_hole_of_an_led_s_size_is_left_open_but_not_a_sunk_one(tmp_path, pair, capsys):
    for number, diameter in enumerate((3.14, 3.2, 3.25, 3.27, 3.2)):
        pair.modelspace().add_circle((number * UNIT, UNIT), diameter / 2)
    pair.modelspace().add_circle((4 * UNIT, UNIT), 2.0)
    plate = read_back(tmp_path, dxf_text(pair)).plate
    assert [hole.x for hole in plate.holes] == [0.5, 3.5, 4.5] and not plate.components
    assert "2 holes of 3.2 mm, for an LED or a screw: see the comments" in capsys.readouterr().out
    text = next(tmp_path.glob("*.keys")).read_text("utf-8")
    says = "`light NAME at 1.5, -0.5` for an LED, `hole at 1.5, -0.5` for a screw."
    assert f"  # A hole of 3.2 mm: {says}\n" in text


def test_a_hole_is_round_however_far_from_0_it_is(tmp_path):
    document = new_dxf()
    document.modelspace().add_lwpolyline(up(corners((5e5, 0, 0))), close=True)
    document.modelspace().add_circle((5e5, 20), 1.5)
    assert len(read_back(tmp_path, dxf_text(document)).plate.holes) == 1


def test_a_hole_of_arcs_is_round_too_and_a_hexagon_is_not(tmp_path, pair, capsys):
    space = pair.modelspace()
    space.add_arc((0, 20), 1.5, 0, 180)
    space.add_arc((0, 20), 1.5, 180, 360)
    space.add_ellipse((20, 20), (1.7, 0), 1.0)
    space.add_ellipse((40, 20), (1.6, 0), 0.8)
    space.add_lwpolyline([(60 + x, 20 + y) for x, y in _hexagon(1.5)], close=True)
    plate = read_back(tmp_path, dxf_text(pair)).plate
    assert len(plate.holes) == 2
    assert capsys.readouterr().err.count("closed outline") == 2


def _hexagon(radius):
    half = radius * 3**0.5 / 2
    right = [(radius, 0), (radius / 2, half), (-radius / 2, half)]
    return right + [(-x, -y) for x, y in right]


def test_a_hole_inside_a_switch_is_not_a_screw_hole(tmp_path, pair, capsys):
    pair.modelspace().add_circle((0.5, 0), 1.9)
    assert not read_back(tmp_path, dxf_text(pair)).plate.holes
    assert "hole in a switch, 3.80 mm across" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("side", "is_switch"), [(13.69, False), (13.7, True), (14.3, True), (14.31, False)]
)
def test_a_square_may_be_a_bit_off(tmp_path, pair, capsys, side, is_switch):
    square = up(corners((2 * UNIT, 0, 0), side))
    pair.modelspace().add_lwpolyline(square, close=True)
    assert len(read_back(tmp_path, dxf_text(pair)).keys) == 2 + is_switch
    assert ("closed outline" in capsys.readouterr().err) != is_switch


@pytest.mark.parametrize("radius", [7.0, 5.0])
def test_a_circle_and_a_very_round_square_are_no_switch(tmp_path, capsys, radius):
    body = f'<rect x="40" y="0" width="14" height="14" rx="{radius}"/>'
    assert len(read_back(tmp_path, svg_of(polygons(PAIR) + body), "p.svg").keys) == 2
    what = "circle, 14.00 mm across" if radius == 7 else "closed outline, 14.00 × 14.00 mm"
    assert what in capsys.readouterr().err


def test_the_outline_round_everything_is_written_and_others_are_listed(tmp_path, pair, capsys):
    space = pair.modelspace()
    space.add_lwpolyline([(-20, -15), (40, -15), (40, 15), (-20, 15)], close=True)
    frame = {"layer": "frame"}
    ring = [(-30, -25), (50, -25), (50, 25), (-30, 25), (-30, -25)]
    for start, end in pairwise(ring):
        space.add_line(start, end, dxfattribs=frame)
    assert read_back(tmp_path, dxf_text(pair)).plate.outline is not None
    assert capsys.readouterr().err.splitlines() == [
        "in the drawing, but not in the file:",
        "  closed outline, 60.00 × 30.00 mm, at 10.00, 0.00 mm, layer `0`",
    ]


def test_an_outline_that_cannot_be_said_is_listed_first_by_its_name(tmp_path, pair, capsys):
    """It has more corners than a file may have."""
    space = pair.modelspace()
    space.add_lwpolyline([(-20, -15), (40, -15), (40, 15), (-20, 15)], close=True)
    saw = [(-30 + n / 4, -25 - n % 2) for n in range(321)]
    space.add_lwpolyline([*saw, (50, 25), (-30, 25)], close=True, dxfattribs={"layer": "frame"})
    assert read_back(tmp_path, dxf_text(pair)).plate.outline is None
    assert capsys.readouterr().err.splitlines()[1:] == [
        "  outline round everything, 80.00 × 51.00 mm, at 10.00, -0.50 mm, layer `frame`",
        "  closed outline, 60.00 × 30.00 mm, at 10.00, 0.00 mm, layer `0`",
    ]


def test_a_square_that_is_drawn_twice_is_one_switch(tmp_path, pair, capsys):
    pair.modelspace().add_lwpolyline(up(corners((0.01, 0, 0), 13.9)), close=True)
    assert len(read_back(tmp_path, dxf_text(pair)).keys) == 2
    assert "second square on a switch, 13.90 × 13.90 mm" in capsys.readouterr().err


def test_what_is_drawn_over_itself_is_there_once(tmp_path, pair, capsys):
    for switch in PAIR:
        pair.modelspace().add_lwpolyline(up(corners(switch))[::-1], close=True)
    for diameter in (3.2, 3.2, 3.6):
        pair.modelspace().add_circle((0, 30), diameter / 2)
    found = read_back(tmp_path, dxf_text(pair))
    assert (len(found.keys), len(found.plate.holes)) == (2, 1)
    assert capsys.readouterr().err == ""


def test_a_circle_inside_a_switch_s_square_does_not_hide_it(tmp_path):
    circles = "".join(f'<circle cx="{x}" cy="{y}" r="7"/>' for x, y, _ in PAIR)
    body = circles + polygons(PAIR) + circles
    assert len(read_back(tmp_path, svg_of(body), "p.svg").keys) == 2


def test_one_switch_and_its_double_have_no_outline(tmp_path, capsys):
    body = polygons(PAIR[:1]) + '<rect x="-6.9" y="-6.9" width="14" height="14"/>'
    read_back(tmp_path, svg_of(body), "p.svg")
    assert "outline round" not in capsys.readouterr().err


def test_at_most_20_lines_are_listed_and_then_a_count(tmp_path, pair, capsys):
    for number in range(500):
        pair.modelspace().add_text(f"t{number}", dxfattribs={"layer": "n"}).set_placement(
            (9, number)
        )
    read_back(tmp_path, dxf_text(pair))
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 22
    assert lines[1] == "  text, at 9.00, 0.00 mm, layer `n`"
    assert lines[-1] == "  and 480 more"


def test_exactly_20_need_no_count(tmp_path, pair, capsys):
    for number in range(20):
        pair.modelspace().add_text("t").set_placement((9, number))
    read_back(tmp_path, dxf_text(pair))
    assert len(capsys.readouterr().err.splitlines()) == 21


def test_layers_that_are_not_shown_are_left_out(tmp_path, pair, capsys):
    for name in ("off", "frozen"):
        layer = pair.layers.add(name)
        layer.off() if name == "off" else layer.freeze()
        square = up(corners((0, 3 * UNIT, 0)))
        pair.modelspace().add_lwpolyline(square, close=True, dxfattribs={"layer": name})
    assert len(read_back(tmp_path, dxf_text(pair)).keys) == 2
    assert "note: left out what is hidden in the drawing: 2 shapes" in capsys.readouterr().err


@pytest.mark.parametrize("how", ['style="fill:red; display: none"', 'display="none"'])
def test_groups_that_are_not_shown_are_left_out(tmp_path, capsys, how):
    more = f"<g {how}>{polygons([(0, 90, 0)])}</g><defs>{polygons([(0, 60, 0)])}</defs>"
    assert len(read_back(tmp_path, svg_of(polygons(PAIR) + more), "p.svg").keys) == 2
    assert "hidden in the drawing: 1 shape\n" in capsys.readouterr().err


def test_lines_of_two_layers_make_no_square(tmp_path, pair, capsys):
    square = up(corners((0, 3 * UNIT, 0)))
    for number, (start, end) in enumerate(zip(square, [*square[1:], square[0]], strict=True)):
        layer = {"layer": "ab"[number % 2]}
        pair.modelspace().add_line(start, end, dxfattribs=layer)
    assert len(read_back(tmp_path, dxf_text(pair)).keys) == 2
    assert capsys.readouterr().err.count("open line, 14.00 mm end to end") == 4


@pytest.mark.parametrize(("gap", "keys"), [(0.04, 3), (0.08, 2)])
def test_ends_that_nearly_meet_are_joined(tmp_path, pair, gap, keys):
    square = up(corners((0, 3 * UNIT, 0)))
    for (x, y), (to_x, to_y) in zip(square, [*square[1:], square[0]], strict=True):
        back = gap / 14
        end = (to_x - (to_x - x) * back, to_y - (to_y - y) * back)
        pair.modelspace().add_line((x, y), end)
    assert len(read_back(tmp_path, dxf_text(pair)).keys) == keys


def test_a_block_that_is_mirrored_scaled_and_in_rows_is_read(tmp_path):
    document = new_dxf()
    block = document.blocks.new("half")
    block.add_lwpolyline([(x / 2, y / 2) for x, y in up(corners((7, 5, 20)))], close=True)
    named = {"xscale": -2, "yscale": 2, "column_count": 3, "row_count": 2}
    named |= {"column_spacing": 25, "row_spacing": 30}
    document.modelspace().add_blockref("half", (100, 50), dxfattribs=named)
    wanted = [(c * 25.0, r * 30.0, -20.0) for c in range(3) for r in range(2)]
    assert error_mm(switches_of(read_back(tmp_path, dxf_text(document))), wanted) <= NEAR_MM


def test_entities_of_a_block_on_layer_0_are_on_that_of_the_block(tmp_path, pair, capsys):
    pair.blocks.new("note").add_line((0, 30), (5, 30))
    pair.modelspace().add_blockref("note", (0, 0), dxfattribs={"layer": "inserted"})
    read_back(tmp_path, dxf_text(pair))
    assert "at 2.50, 30.00 mm, layer `inserted`" in capsys.readouterr().err


def test_a_drawing_seen_from_below_is_turned_as_its_plane_says(tmp_path):
    """An extrusion of (0, 0, -1) mirrors x: the entity's plane is seen from behind."""
    document = new_dxf()
    wanted = [(0.0, 0.0, 0.0), (30.0, 0.0, 17.0), (60.0, 5.0, 0.0)]
    for x, y, turned in wanted:
        points = [(-a, b) for a, b in up(corners((x, y, turned)))]
        document.modelspace().add_lwpolyline(
            points, close=True, dxfattribs={"extrusion": (0, 0, -1)}
        )
    assert error_mm(switches_of(read_back(tmp_path, dxf_text(document))), wanted) <= NEAR_MM


@pytest.mark.parametrize(
    ("unit", "scale", "note"),
    [
        (units.IN, 1 / 25.4, None),
        (units.CM, 0.1, None),
        (0, 1.0, "the drawing has no unit: it was read in millimetres"),
        (0, 1 / 25.4, "the drawing has no unit: it was read in inches"),
        (units.M, 1.0, "no square is 14 mm in the drawing's own unit, metres: read in millimetres"),
    ],
)
def test_the_unit_is_the_drawing_s_own_or_told(tmp_path, capsys, unit, scale, note):
    assert len(read_back(tmp_path, dxf_of(PAIR, scale=scale, unit=unit)).keys) == 2
    assert capsys.readouterr().err == (f"note: {note}\n" if note else "")


@pytest.mark.parametrize(
    ("size", "scale", "unit"),
    [
        ('width="40cm" height="20cm" viewBox="0 0 400 200"', 1.0, None),
        ('width="400mm" height="900mm" viewBox="0 0 800 400"', 2.0, None),
        ('width="72pt" height="72pt" viewBox="0 0 25.4 25.4"', 1.0, None),
        ('width="40mm" height="40mm"', 96 / 25.4, None),
        ("", 96 / 25.4, "pixels of 1/96 inch"),
        ('viewBox="0 0 400 200"', 1.0, "millimetres"),
        ('width="100%" viewBox="0 0 9 9"', 72 / 25.4, "points of 1/72 inch"),
        ('width="900" height="900"', 90 / 25.4, "pixels of 1/90 inch"),
    ],
)
def test_the_size_of_an_svg_says_what_its_unit_is(tmp_path, capsys, size, scale, unit):
    found = read_back(tmp_path, svg_of(polygons(PAIR, scale), size), "p.svg")
    assert error_mm(switches_of(found), PAIR) <= NEAR_MM
    told = f"note: the drawing has no unit: it was read in {unit}\n"
    assert capsys.readouterr().err == (told if unit else "")


@pytest.mark.parametrize(
    "data",
    [
        "M3 3h14v14H3z",
        "m3,3 14,0 0,14-14 0Z",
        "M3 3 17 3 17 17 3 17 3 3",
        "M4 3H16a1 1 0 0 1 1 1V16a1 1 0 01-1 1H4a1 1 0 011-1 1 1 0 1 1-2 0",
        "M4 3H16q1 0 1 1V16q0 1-1 1H4Q3 17 3 16V4Q3 3 4 3z",
        "M4 3H16c.5 0 1 .5 1 1V16C17 16.5 16.5 17 16 17H4S3 16.5 3 16V4s.5-1 1-1z",
        "M3 3L17 3M17 3L17 17M17 17L3 17M3 17L3 3",
        "M3e0 3.0h+14v14H3zm2 2h1v1z",
    ],
)
def test_a_path_is_read_with_every_command(tmp_path, data):
    is_square = "1 0 1 1-2 0" not in data  # the arcs of this one end elsewhere
    found = read_back(tmp_path, svg_of(f'{polygons(PAIR)}<path d="{data}"/>'), "p.svg")
    assert len(found.keys) == 2 + is_square


def test_arcs_of_a_path_are_the_shorter_or_longer_way_round(tmp_path):
    """A hole of 3 mm in four ways: each ellipse flag is needed for it to be round."""
    ways = (
        "M1.5 0A1.5 1.5 0 0 1 0 1.5A1.5 1.5 0 1 1 1.5 0",
        "M1.5 0A1.5 1.5 0 1 0 0 1.5A1.5 1.5 0 0 0 1.5 0",
        "M1.5 0a1.5 1.5 0 1 1-3 0 1.5 1.5 0 1 1 3 0",
        "M1.5 0A.1 .1 0 0 1-1.5 0A.1.1 30 0 1 1.5 0",
    )
    body = "".join(
        f'<path transform="translate({UNIT * n} 40)" d="{way}"/>' for n, way in enumerate(ways)
    )
    plate = read_back(tmp_path, svg_of(polygons(PAIR) + body), "p.svg").plate
    places = [hole.x - 0.5 for hole in plate.holes]
    assert places == pytest.approx([0, 1, 2, 3], abs=0.001)


def test_curves_that_go_on_smoothly_make_a_round_hole(tmp_path):
    """Circles of four cubic and eight quadratic curves, each after the first by S or T."""
    ways = (
        "M1.5 0C1.5.8284.8284 1.5 0 1.5S-1.5.8284-1.5 0-.8284-1.5 0-1.5 1.5-.8284 1.5 0",
        "M1.5 0Q1.5.6213 1.0607 1.0607T0 1.5-1.0607 1.0607-1.5 0-1.0607-1.0607 0-1.5"
        "t1.0607.4393.4393 1.0607",
    )
    body = "".join(
        f'<path transform="translate({UNIT * n} 40)" d="{way}"/>' for n, way in enumerate(ways)
    )
    assert len(read_back(tmp_path, svg_of(polygons(PAIR) + body), "p.svg").plate.holes) == 2


def test_keys_are_numbered_as_a_page_is_read_also_where_columns_are_staggered(tmp_path):
    lowered = (0, -2.4, -5, -3, -1, 1)
    wanted = [
        (column * UNIT, row * UNIT + lowered[column], 0.0)
        for row in range(3)
        for column in range(6)
    ]
    found = read_back(tmp_path, dxf_of(wanted))
    assert [key.name.text for key in found.keys] == [f"K{n}" for n in range(1, 19)]
    names = [int(x / UNIT) for x, _, _ in switches_of(found)]
    assert names == [*range(6)] * 3


def test_a_row_of_usual_widths_is_recognised(tmp_path):
    rows = [[1] * 13 + [2], [1.5] + [1] * 12 + [1.5], [1.25] * 3 + [6.25] + [1.25] * 4]
    wanted = []
    for y, widths in enumerate(rows):
        x = 0.0
        for width in widths:
            wanted.append(((x + width / 2) * UNIT, y * UNIT, 0.0))
            x += width
    found = read_back(tmp_path, dxf_of(wanted))
    assert [[key.width for key in line.keys] for line in found.plate.lines] == rows


def test_no_width_is_guessed_if_keys_would_overlap(tmp_path):
    """The key alone in the middle of a row could be two wide, but its neighbours are half lower."""
    wanted = [(x * UNIT, 0.0, 0.0) for x in range(4)] + [(0.5 * UNIT, UNIT, 0.0)]
    low = [*wanted, (1.75 * UNIT, 1.5 * UNIT, 0.0), (-0.45 * UNIT, 1.9 * UNIT, 0.0)]
    assert read_back(tmp_path, dxf_of(wanted)).keys[4].width == 2
    assert max(key.width for key in read_back(tmp_path, dxf_of(low)).keys) == 1


def test_keys_that_are_nearer_than_a_unit_do_not_overlap(tmp_path):
    wanted = [(c * 18.0, r * 17.0, 0.0) for c in range(6) for r in range(4)]
    found = read_back(tmp_path, dxf_of(wanted))
    assert {(key.width, key.height) for key in found.keys} == {(0.9449, 0.8924)}


def test_a_wide_gap_is_written_in_parts(tmp_path):
    wanted = [(0.0, 0.0, 0.0), (47.3 * UNIT, 0.0, 0.0)]
    assert error_mm(switches_of(read_back(tmp_path, dxf_of(wanted))), wanted) <= NEAR_MM
    assert re.search("K1 ~20 ~20 ~6.3 K2", (tmp_path / "made.keys").read_text("utf-8"))
