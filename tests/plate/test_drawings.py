"""The plate as DXF and SVG, read by `ezdxf` and by a browser, against shapely's own geometry."""

from __future__ import annotations

import io
import math
import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pytest
from ezdxf import path as dxf_path
from shapely.geometry import Polygon

from matrixgen.emit.legends import legends_svg
from matrixgen.emit.plate_drawing.dxf import plate_dxf
from matrixgen.jobs.plate import PlateOptions, plate_file
from matrixgen.jobs.plate import test_piece as piece_for
from matrixgen.plate.shape import plate_shape
from tests.plate.plates import (
    NAMES,
    differ,
    differ_at_most,
    holes,
    keyboard_of,
    outline,
    read,
    switches,
)

EXAMPLE = Path(__file__).parents[2] / "examples" / "heron-12" / "heron-12.keys"

SMALL = 0.02
"""Square millimetres that shapes may differ by: arcs are polygons here."""

OUTLINE_ONLY = 0.5
"""The same of an outline of a metre."""


def drawing_of(content: bytes):
    found = ezdxf.read(io.StringIO(content.decode("utf-8")))
    auditor = found.audit()
    assert not auditor.errors and not auditor.fixes
    return found


def shapes(drawing, layer: str) -> list[Polygon]:
    """Return the closed shapes of a layer, as they lie with y downwards."""
    found = []
    for one in drawing.modelspace().query(f'*[layer=="{layer}"]'):
        assert one.dxftype() == "CIRCLE" or one.is_closed
        points = list(dxf_path.make_path(one).flattening(0.0005))
        found.append(Polygon([(at.x, -at.y) for at in points]))
    return found


@pytest.mark.few(8)
@pytest.mark.parametrize("release", ["R12", "R2010"])
@pytest.mark.parametrize("name", NAMES)
def test_each_layer_has_its_shapes_where_they_belong(name, release):
    keyboard = keyboard_of(name)
    plate = keyboard.plate
    content = plate_file(keyboard, ".dxf", PlateOptions(is_r12=release == "R12"))
    drawing = drawing_of(content)
    assert drawing.dxfversion == {"R12": "AC1009", "R2010": "AC1024"}[release]
    assert {one.dxf.layer for one in drawing.modelspace()} <= {
        "OUTLINE",
        "SWITCHES",
        "STABILISERS",
        "HOLES",
        "DIMENSIONS",
    }
    (around,) = shapes(drawing, "OUTLINE")
    assert differ(around, outline(plate)) < OUTLINE_ONLY
    assert differ_at_most(switches(plate), shapes(drawing, "SWITCHES")) < SMALL
    assert differ_at_most(holes(plate), shapes(drawing, "HOLES")) < SMALL
    for one in shapes(drawing, "SWITCHES") + shapes(drawing, "STABILISERS"):
        assert around.contains(one)


@pytest.mark.parametrize("name", NAMES)
def test_no_edge_is_there_twice(name):
    """A cutter would burn it a second time."""
    drawing = drawing_of(plate_file(keyboard_of(name), ".dxf", PlateOptions()))
    edges = [
        frozenset((round(x, 3), round(y, 3)) for x, y in pair)
        for layer in ("OUTLINE", "SWITCHES", "STABILISERS", "HOLES")
        for one in shapes(drawing, layer)
        for pair in pairwise(one.exterior.coords)
    ]
    assert len(edges) == len(set(edges))


@pytest.mark.parametrize("kerf", [0.15, 0.4])
def test_a_kerf_is_allowed_for_on_the_right_side(kerf):
    """What is left after a cut of that width is the nominal plate."""
    plate = keyboard_of("avocet-42").plate
    drawing = drawing_of(plate_dxf(plate_shape(plate, kerf), "R2010", ()))
    (around,) = shapes(drawing, "OUTLINE")
    assert differ(around.buffer(-kerf / 2, quad_segs=64), outline(plate)) < OUTLINE_ONLY
    cut = [one.buffer(kerf / 2, join_style="mitre") for one in shapes(drawing, "SWITCHES")]
    assert differ_at_most(switches(plate), cut) < SMALL
    drilled = [one.buffer(kerf / 2, quad_segs=64) for one in shapes(drawing, "HOLES")]
    assert differ_at_most(holes(plate), drilled) < SMALL


def test_the_dimensions_are_the_plate_s():
    keyboard = keyboard_of("avocet-42")
    drawing = drawing_of(plate_file(keyboard, ".dxf", PlateOptions()))
    words = [one.dxf.text for one in drawing.modelspace().query("TEXT[layer=='DIMENSIONS']")]
    left, top, right, bottom = outline(keyboard.plate).bounds
    assert {f"{right - left:.2f}", f"{bottom - top:.2f}"} <= set(words)
    found = [[float(one) for one in re.findall(r"[\d.]+", word)] for word in words[-4:]]
    assert found == [
        pytest.approx([hole.x * 19.05 - left, hole.y * 19.05 - top, 3.4], abs=0.006)
        for hole in keyboard.plate.holes
    ]


@pytest.mark.parametrize("kind", [".dxf", ".svg", ".stl", ".3mf"])
def test_the_same_plate_gives_the_same_bytes(kind):
    keyboard = keyboard_of("whimbrel-34")
    assert plate_file(keyboard, kind, PlateOptions()) == plate_file(keyboard, kind, PlateOptions())


@pytest.mark.parametrize(("margin", "radius"), [(0, 0), (8.5, 3), (12, 5), (40, 0)])
def test_the_outline_is_as_the_file_says(margin, radius):
    said = f"  outline margin {margin} mm radius {radius} mm\n"
    thumb = "  cluster thumb at 2, 3 turned 25\n    line E:2 F\n  hole at -2, 1 for M2\n"
    plate = read("x", f"plate\n  line A B C:3\n  line D\n{thumb}{said}").plate
    (around,) = shapes(drawing_of(plate_dxf(plate_shape(plate), "R2010", ())), "OUTLINE")
    assert differ(around, outline(plate, margin, radius)) < OUTLINE_ONLY


@pytest.mark.parametrize(
    "text", ["A B\n  line C D", "A\n  cluster t at 2, 2 turned 40\n    line B:2"]
)
def test_very_round_corners_leave_no_side_without_length(text):
    said = "  outline margin 0 mm radius 100 mm\n"
    path = plate_shape(read("x", f"plate\n  line {text}\n{said}").plate).outline
    sides = [math.dist(one.at, other.at) for one, other in pairwise([*path, path[0]])]
    assert min(sides) > 0.001


def test_cut_outs_are_as_large_as_the_file_says():
    turned = "  cluster t at 3, 2 turned 25\n    line C D\n"
    plate = read("x", f"plate\n  line A B:2\n{turned}  cut-out 13.8 x 12.25 mm\n").plate
    drawing = drawing_of(plate_dxf(plate_shape(plate), "R2010", ()))
    assert differ_at_most(switches(plate, 13.8, 12.25), shapes(drawing, "SWITCHES")) < SMALL
    piece = piece_for(read("x", "plate\n  line A\n  cut-out 13.8 x 12.25 mm\n")).plate
    drawing = drawing_of(plate_dxf(plate_shape(piece), "R2010", ()))
    assert differ_at_most(switches(piece, 13.8, 12.25), shapes(drawing, "SWITCHES")) < SMALL


def test_arcs_have_their_radius():
    path = plate_shape(keyboard_of("goosander-104").plate).outline
    arcs = [
        math.dist(one.at, other.at) / 2 / math.sin(2 * math.atan(one.bulge))
        for one, other in pairwise([*path, path[0]])
        if one.bulge
    ]
    assert len(arcs) >= 4 and arcs == pytest.approx([2.0] * len(arcs))


@pytest.mark.parametrize("name", ["A -- B", "<a>&amp;", "]]>", "ü\u202e"])
def test_whatever_a_keyboard_is_called_its_drawings_read(name):
    text = f'keyboard "{name}"\n\nplate\n  line A B\n\nlayer base\n  A = Q\n'
    keyboard = read("x", text)
    root = ElementTree.fromstring(plate_file(keyboard, ".svg", PlateOptions(kerf=0.1)))
    assert root.tag.endswith("svg")
    ElementTree.fromstring(legends_svg(keyboard))
    drawing_of(plate_file(keyboard, ".dxf", PlateOptions()))
    assert len(plate_file(keyboard, ".3mf", PlateOptions())) > 1000
