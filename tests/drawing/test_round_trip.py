"""Every example drawn as a maker would, read back: each switch is where it was."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

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
from tests.examples.shipped import NAMES, example

INCH = 25.4


def switches(name: str):
    return switches_of(example(name).keyboard)


def in_pieces(wanted) -> str:
    """Four lines a switch, in any order and direction, some drawn twice, on R2010."""
    document, chance, lines = new_dxf(), random.Random(1), []
    for switch in wanted:
        square = up(corners(switch))
        lines += zip(square, [*square[1:], square[0]], strict=True)
    lines += lines[::7]
    chance.shuffle(lines)
    for line in lines:
        document.modelspace().add_line(*(line if chance.random() < 0.5 else line[::-1]))
    return dxf_text(document)


def in_inches(wanted) -> str:
    return dxf_of(wanted, scale=1 / INCH, unit=1)


def in_no_unit(wanted) -> str:
    return dxf_of(wanted, unit=0, scale=1 / INCH)


def in_metres_by_mistake(wanted) -> str:
    return dxf_of(wanted, unit=6)


def in_blocks(wanted) -> str:
    """One square in a block within a block, inserted and turned for each switch."""
    document = new_dxf()
    document.blocks.new("square").add_lwpolyline(up(corners((0, 0, 0))), close=True)
    document.blocks.new("switch").add_blockref("square", (1, 2))
    for x, y, turned in wanted:
        corner = up([(x, y)])[0]
        insert = document.modelspace().add_blockref("switch", corner)
        insert.dxf.rotation = -turned
        # the block's square is at 1, 2: the insert goes back by that, turned
        at = insert.matrix44().transform((1, 2, 0))
        insert.translate(corner[0] - at.x, corner[1] - at.y, 0)
    return dxf_text(document)


def moved_far(wanted) -> str:
    return dxf_of([(x + 1234.567, y - 765.4321, turned) for x, y, turned in wanted])


def among_others(wanted) -> str:
    """500 other entities on layers of their own, and arcs that round the corners."""
    document = new_dxf()
    space, chance = document.modelspace(), random.Random(2)
    for x, y, turned in wanted:
        half, r = 7.0, 0.5
        inner = half - r
        turns = [(-inner, -half), (inner, -half), (half, -inner), (half, inner)]
        turns += [(inner, half), (-inner, half), (-half, inner), (-half, -inner)]
        bulges = [0, 0.41421356, 0, 0.41421356, 0, 0.41421356, 0, 0.41421356]
        line = space.add_lwpolyline(
            [(a, b, 0, 0, bulge) for (a, b), bulge in zip(turns, bulges, strict=True)], close=True
        )
        line.rotate_z(-turned * 3.141592653589793 / 180)
        line.translate(x, -y, 0)
    for number in range(125):
        x, y = chance.uniform(-100, 600), chance.uniform(-300, 100)
        layer = {"layer": f"note {number % 5}"}
        space.add_text(f"text {number}", dxfattribs=layer).set_placement((x, y))
        space.add_line((x, y), (x + 14, y), dxfattribs=layer)
        space.add_circle((x, y), 0.8, dxfattribs=layer)
        space.add_arc((x, y), 5, 0, 90, dxfattribs=layer)
    return dxf_text(document)


def in_r12(wanted) -> str:
    return dxf_of(wanted, "R12")


def rounded_to_hundredths(wanted) -> str:
    return dxf_of([(round(x, 2), round(y, 2), turned) for x, y, turned in wanted])


DRAWINGS = (
    dxf_of,
    in_r12,
    in_pieces,
    in_inches,
    in_no_unit,
    in_metres_by_mistake,
    in_blocks,
    moved_far,
    among_others,
)


@pytest.mark.few(30)
@pytest.mark.parametrize("drawn", DRAWINGS, ids=lambda drawn: drawn.__name__)
@pytest.mark.parametrize("name", NAMES)
def test_a_switch_is_where_the_dxf_has_it(tmp_path, name, drawn):
    wanted = switches(name)
    found = switches_of(read_back(tmp_path, drawn(wanted)))
    assert error_mm(found, wanted) <= NEAR_MM


@pytest.mark.parametrize("name", NAMES)
def test_so_it_is_in_a_drawing_that_is_rounded(tmp_path, name):
    wanted = [(round(x, 2), round(y, 2), turned) for x, y, turned in switches(name)]
    found = switches_of(read_back(tmp_path, rounded_to_hundredths(wanted)))
    assert error_mm(found, wanted) <= NEAR_MM


@pytest.mark.parametrize("name", NAMES)
def test_a_drawing_from_behind_is_turned_round(tmp_path, name):
    wanted = switches(name)
    behind = dxf_of([(-x, y, -turned) for x, y, turned in wanted])
    found = switches_of(read_back(tmp_path, behind, "plate.dxf", "--mirrored"))
    assert error_mm(found, wanted) <= NEAR_MM


def as_polygons(wanted) -> str:
    return svg_of(polygons(wanted))


def as_pixels(wanted) -> str:
    return svg_of(polygons(wanted, 96 / INCH), 'viewBox="0 0 1500 700"')


def in_svg_inches(wanted) -> str:
    size = 'width="20in" height="10in" viewBox="-3 -3 2000 1000"'
    return svg_of(polygons(wanted, 100 / INCH), size)


def as_rectangles(wanted) -> str:
    """Through nested transforms, which undo each other but for the switch's own."""
    body = "".join(
        f'<g transform="translate({x:.6f} {y:.6f})"><g transform="rotate({turned:.6f})">'
        '<rect x="-7" y="-7" width="14" height="14" rx="0.4"/></g></g>'
        for x, y, turned in wanted
    )
    nested = '<g transform="scale(2) rotate(30, 5,6)"><g transform="rotate(-30 5 6),scale(.5)">'
    return svg_of(f"{nested}{body}</g></g>")


def as_lines(wanted) -> str:
    body = ""
    for switch in wanted:
        square = corners(switch)
        for (x, y), (to_x, to_y) in zip(square, [*square[1:], square[0]], strict=True):
            body += f'<line x1="{x:.5f}" y1="{y:.5f}" x2="{to_x:.5f}" y2="{to_y:.5f}"/>'
    return svg_of(body)


def as_paths(wanted) -> str:
    """One path of all switches: absolute for the first point of each, relative after it."""
    data = ""
    for switch in wanted:
        square = corners(switch)
        data += "M{:.6f},{:.6f}".format(*square[0])
        for (x, y), (to_x, to_y) in pairwise(square):
            data += f"l{to_x - x:.6f} {to_y - y:.6f}"
        data += "z"
    return svg_of(f'<path d="{data}"/>')


def as_copies(wanted) -> str:
    body = '<defs><rect id="s" x="-7" y="-7" width="14" height="14"/></defs>'
    for x, y, turned in wanted:
        body += f'<use href="#s" transform="translate({x:.6f},{y:.6f}) rotate({turned:.6f})"/>'
    return svg_of(body)


@pytest.mark.few(24)
@pytest.mark.parametrize(
    "drawn",
    [as_polygons, as_pixels, in_svg_inches, as_rectangles, as_lines, as_paths, as_copies],
    ids=lambda drawn: drawn.__name__,
)
@pytest.mark.parametrize("name", NAMES)
def test_a_switch_is_where_the_svg_has_it(tmp_path, name, drawn):
    wanted = switches(name)
    found = switches_of(read_back(tmp_path, drawn(wanted), "plate.svg"))
    assert error_mm(found, wanted) <= NEAR_MM


@pytest.mark.parametrize("seed", range(12))
def test_so_it_is_for_any_plate(tmp_path, seed):
    """Places of any number of decimals, narrow and wide pitches, turns of any angle."""
    chance = random.Random(seed)
    pitch = chance.choice([(18.0, 17.0), (19.05, 19.05), (15.5, 16.0), (21.3, 20.0)])
    wanted = [
        (column * pitch[0], row * pitch[1] + column % 3 * chance.choice([0, 2.4]), 0.0)
        for row in range(4)
        for column in range(10)
    ]
    wanted += [
        (n * 30.0 + chance.random(), 150 + chance.random() * 10, chance.uniform(-44, 44))
        for n in range(6)
    ]
    found = switches_of(read_back(tmp_path, dxf_of(wanted)))
    assert error_mm(found, wanted) <= NEAR_MM


def test_the_compared_switches_are_those_of_a_real_plate():
    """A switch that is off by 0.03 mm, or by 0.2 degrees, is seen."""
    wanted = switches(NAMES[0])
    x, y, turned = wanted[3]
    for wrong in ((x + 0.03, y, turned), (x, y, turned + 0.2)):
        assert error_mm([*wanted[:3], wrong, *wanted[4:]], wanted) > NEAR_MM
    assert UNIT == 19.05
