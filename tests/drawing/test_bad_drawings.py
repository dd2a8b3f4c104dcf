"""Damaged, oversized and foreign files: one line of complaint, exit status 2, and no file."""

from __future__ import annotations

import importlib.util
import random

import pytest

from matrixgen.drawing import dxf, traces
from tests.amounts import amount
from tests.drawing.drawn import UNIT, dxf_of, dxf_text, new_dxf, polygons, svg_of
from tests.hostile.conftest import no_hang
from tests.program import Program

PLATE = [(column * UNIT, row * UNIT, 0.0) for column in range(4) for row in range(3)]

DAMAGES = amount("MATRIXGEN_DRAWINGS", suite=60, long=5000)


def refused(program: Program, name: str, data: str | bytes, *words: str) -> None:
    program.write(name, data)
    ran = program("new", "pad", "--from", name)
    assert (ran.status, ran.out) == (2, "")
    complaint, *helps = ran.err.splitlines()
    assert complaint.startswith(f"matrixgen: `{name}`: ")
    assert all(word in complaint for word in words), complaint
    assert all(line.startswith("    help: ") for line in helps) and len(helps) < 3
    assert not (program.folder / "pad.keys").exists()


@pytest.mark.parametrize(
    ("name", "data", "word"),
    [
        ("p.dxf", "", "not a DXF drawing"),
        ("p.dxf", "hello", "not a DXF drawing"),
        ("p.dxf", b"\x00\xff" * 999, "not a DXF drawing"),
        ("p.dxf", "  0\nSECTION\n", "ends too early"),
        ("p.dxf", "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nnot a number\n0\nEOF\n", "DXF"),
        ("p.dxf", b"AutoCAD Binary DXF\r\n\x1a\x00rest", "binary DXF"),
        ("p.dwg", b"AC1027\x00\x00", "DWG"),
        ("p.pdf", b"%PDF-1.7", "PDF"),
        ("p.svgz", b"\x1f\x8b\x08", "compressed"),
        ("p.svg", "<svg", "line 1 is not XML"),
        ("p.svg", "<svg></g>", "line 1 is not XML"),
        ("p.svg", "<html/>", "not SVG"),
        ("p.svg", '<svg><g transform="rotate(x)"/></svg>', "transform `rotate(x)`"),
        ("p.svg", '<svg><g transform="rotate(1,2)"/></svg>', "transform `rotate(1,2)`"),
        ("p.svg", '<?xml version="1.0" encoding="klingon"?><svg/>', "XML"),
        ("p.svg", "<svg/>", "no closed square of 14 mm"),
        ("p.dxf", dxf_of([]), "no closed square of 14 mm"),
    ],
)
def test_a_file_that_is_no_such_drawing_is_refused(program, name, data, word):
    refused(program, name, data, word)


def test_missing_files_and_folders_are_refused(program):
    assert "no such file" in program("new", "pad", "--from", "none.dxf").err
    ran = program("new", "pad", "--from", ".")
    assert ran.status == 2 and "folder" in ran.err.lower() + "folder" * ("directory" in ran.err)


def test_entities_of_xml_are_neither_fetched_nor_multiplied(program):
    secret = program.folder / "secret"
    secret.write_text(polygons(PLATE))
    for declared in (f'<!ENTITY a SYSTEM "{secret}">', '<!ENTITY a "b"><!ENTITY c "&a;&a;&a;">'):
        refused(program, "p.svg", f"<!DOCTYPE svg [{declared}]>{svg_of('&a;')}", "XML entities")


def test_a_doctype_without_entities_is_fine(program):
    doctype = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://127.0.0.1:9/none.dtd">'
    program.write("p.svg", doctype + svg_of(polygons(PLATE)))
    assert program("new", "pad", "--from", "p.svg").status == 0


def test_a_drawing_of_more_than_50_000_shapes_is_refused(program):
    document = new_dxf("R12")
    for number in range(50_001):
        document.modelspace().add_point((number, 0))
    refused(program, "p.dxf", dxf_text(document), "more than 50,000 shapes")
    body = polygons(PLATE) + '<path d="M0 0h1"/>' * 50_000
    refused(program, "p.svg", svg_of(body), "more than 50,000 shapes")
    refused(program, "q.svg", svg_of("<i/>" * 100_000), "more than 100,000 elements")


@pytest.fixture
def few_shapes(monkeypatch):
    """Let 500 shapes be the most: to come to 50,000 takes seconds, and shows no more."""
    for module in (dxf, traces):
        monkeypatch.setattr(module, "MOST_SHAPES", 500)


def test_blocks_and_copies_that_multiply_are_refused(program, few_shapes):
    document = new_dxf()
    document.blocks.new("b0").add_line((0, 0), (1, 1))
    for level in range(1, 12):
        block = document.blocks.new(f"b{level}")
        for number in range(10):
            block.add_blockref(f"b{level - 1}", (number, 0))
    document.modelspace().add_blockref("b11", (0, 0))
    refused(program, "p.dxf", dxf_text(document), "more than 500 shapes")
    tens = ((n, f'<use href="#c{n - 1}"/>' * 10) for n in range(1, 12))
    copies = '<g id="c0"/>' + "".join(f'<g id="c{n}">{ten}</g>' for n, ten in tens)
    refused(program, "p.svg", svg_of(copies), "more than 500 shapes")


def test_an_array_of_a_block_without_end_is_refused(program, few_shapes):
    document = new_dxf()
    document.blocks.new("none").add_point((0, 0))
    named = {"row_count": 30_000, "column_count": 30_000, "row_spacing": 1, "column_spacing": 1}
    document.modelspace().add_blockref("none", (0, 0), dxfattribs=named)
    refused(program, "p.dxf", dxf_text(document), "more than 500 shapes")
    document.blocks.new("empty")
    document.modelspace().add_blockref("empty", (0, 0), dxfattribs=named)
    refused(program, "p.dxf", dxf_text(document), "more than 500 shapes")


def test_what_holds_itself_ends(program):
    document = new_dxf()
    block = document.blocks.new("self")
    block.add_blockref("self", (1, 1))
    document.modelspace().add_blockref("self", (0, 0))
    document.modelspace().add_blockref("nowhere", (5, 5))
    for x, y, _ in PLATE:
        document.modelspace().add_lwpolyline(
            [(x - 7, y - 7), (x + 7, y - 7), (x + 7, y + 7), (x - 7, y + 7)], close=True
        )
    program.write("p.dxf", dxf_text(document))
    ran = program("new", "pad", "--from", "p.dxf")
    assert ran.status == 0
    assert "block within too many others" in ran.err and "block that is not in the file" in ran.err
    body = polygons(PLATE) + '<g id="a"><use href="#a"/></g><use href="#b"/>'
    program.write("p.svg", svg_of(body))
    ran = program("new", "bad", "--from", "p.svg")
    assert ran.status == 0
    assert "copy of too many copies" in ran.err and "copy of nothing" in ran.err


def test_groups_of_endless_depth_are_refused(program):
    refused(program, "p.svg", "<svg>" + "<g>" * 50_000, "more than 100 deep")


def test_a_curve_of_endless_points_is_refused_or_short(program):
    document = new_dxf()
    for radius in (1e6, 1e9, 1e300):
        document.modelspace().add_circle((0, 0), radius)
    refused(program, "p.dxf", dxf_text(document), "no closed square")
    refused(program, "p.svg", svg_of(f'<path d="M0 0{"q1 1 2 2" * 45_000}"/>'), "1,000,000 points")


@pytest.mark.parametrize("bad", ["nan", "inf", "1e400", "-1e99"])
def test_places_that_are_no_places_are_listed(program, bad):
    body = f'<polygon points="0,0 {bad},0 5,5"/><rect x="{bad}" width="3" height="3"/>'
    program.write("p.svg", svg_of(polygons(PLATE) + body))
    ran = program("new", "pad", "--from", "p.svg")
    assert ran.status == 0
    assert len(ran.err.splitlines()) == 3


def test_too_many_switches_and_too_large_plates_are_refused(program):
    many = [(column * UNIT, row * UNIT, 0.0) for column in range(41) for row in range(25)]
    refused(program, "p.svg", svg_of(polygons(many)), "1,025 switches", "1,024 keys")
    far = [*PLATE, (50_000.0, 50_000.0, 0.0)]
    refused(program, "p.svg", svg_of(polygons(far)), "too far apart")


def test_holes_beyond_200_are_listed(program):
    body = "".join(f'<circle cx="{n * 5}" cy="90" r="1.5"/>' for n in range(203))
    program.write("p.svg", svg_of(polygons(PLATE) + body))
    ran = program("new", "pad", "--from", "p.svg")
    assert "12 keys, 200 screw holes" in ran.out
    assert ran.err.count("round hole: a plate has at most 200") == 3
    assert "over-the-limit" not in program("check", "pad.keys").out


def test_a_missing_package_is_named_with_how_to_install_it(program, monkeypatch):
    there = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == "ezdxf" else there(name)
    )
    refused(program, "p.dxf", dxf_of(PLATE), "reading DXF needs the package ezdxf")
    assert 'pip install "matrixgen[plate]"' in program("new", "pad", "--from", "p.dxf").err
    program.write("p.svg", svg_of(polygons(PLATE)))
    assert program("new", "pad", "--from", "p.svg").status == 0


def test_mirrored_needs_a_drawing(program):
    ran = program("new", "pad", "--mirrored")
    assert ran.status == 2
    assert "`--mirrored` needs a drawing" in ran.err


def test_a_file_that_is_there_stays(program):
    program.write("p.svg", svg_of(polygons(PLATE)))
    program.write("pad.keys", "mine")
    ran = program("new", "pad", "--from", "p.svg")
    assert (ran.status, (program.folder / "pad.keys").read_text()) == (2, "mine")


def test_a_controller_may_be_named_and_is_left_out_otherwise(program):
    program.write("p.svg", svg_of(polygons(PLATE)))
    assert program("new", "a", "--from", "p.svg").status == 0
    assert "controller" not in (program.folder / "a.keys").read_text("utf-8")
    assert program("new", "b", "--from", "p.svg", "--controller", "at90usb162").status == 0
    assert "controller at90usb162" in (program.folder / "b.keys").read_text("utf-8")
    assert program("check", "a.keys", "b.keys").status == 0


def test_names_of_layers_and_files_drive_no_terminal(program):
    document = new_dxf()
    for x, y, _ in PLATE:
        document.modelspace().add_lwpolyline(
            [(x - 7, y - 7), (x + 7, y - 7), (x + 7, y + 7), (x - 7, y + 7)], close=True
        )
    document.modelspace().add_line((0, 0), (1, 1), dxfattribs={"layer": "a\x1b[2Jb"})
    name = "p\x1b[2J\nplate.dxf"
    program.write(name, dxf_text(document))
    ran = program("new", "pad", "--from", name)
    assert ran.status == 0 and "\x1b" not in ran.out + ran.err
    assert "\x1b" not in (program.folder / "pad.keys").read_text("utf-8")


def test_the_same_drawing_gives_the_same_bytes(program):
    program.write("p.svg", svg_of(polygons([(x, y, x % 7) for x, y, _ in PLATE])))
    program("new", "a", "--from", "p.svg")
    program("new", "b", "--from", "p.svg")
    one, other = ((program.folder / f"{name}.keys").read_text("utf-8") for name in "ab")
    assert one.replace('"a"', '"b"') == other


@pytest.mark.parametrize("seed", range(DAMAGES))
def test_a_damaged_file_is_read_or_refused(program, seed):
    """Cut, with bytes changed, lines lost or doubled: never a traceback, never more than a line."""
    chance = random.Random(seed)
    release = chance.choice(["R12", "R2000", "R2010"])
    plate = [(x, y, chance.choice([0.0, 12.0])) for x, y, _ in PLATE]
    whole = chance.choice([dxf_of(plate, release), svg_of(polygons(plate))]).encode()
    data = bytearray(whole)
    how = chance.randrange(4)
    if how == 0:
        del data[chance.randrange(len(data)) :]
    elif how == 1:
        for _ in range(chance.randrange(1, 30)):
            data[chance.randrange(len(data))] = chance.randrange(256)
    else:
        lines = bytes(data).replace(b">", b">\n").split(b"\n")
        for _ in range(chance.randrange(1, 9)):
            at = chance.randrange(len(lines))
            lines[at : at + 1] = [] if how == 2 else [lines[at], lines[at]]
        data = bytearray(b"\n".join(lines))
    program.write("p.dxf", bytes(data))
    ran = program("new", "pad", "--from", "p.dxf")
    assert ran.status in (0, 2)
    if ran.status == 2:
        assert ran.err.count("matrixgen: ") == 1 and ran.err.startswith("matrixgen: `p.dxf`: ")
        assert not (program.folder / "pad.keys").exists()


SLOW = {
    "transform": f'<g transform="{" " * 3_000_000}!"/>',
    "transform of calls": f'<g transform="{"scale(1)" * 400_000}"/>',
    "length": f'<rect width="{"1" * 3_000_000}!" height="1"/>',
    "spaces in a length": f'<rect width="1{" " * 3_000_000}!" height="1"/>',
    "copied moves": f'<path id="p" d="{"M0 0" * 700_000}"/>' + '<use href="#p"/>' * 40_000,
    "copied damage": f'<polygon id="p" points="{"1 " * 999_999}"/>' + '<use href="#p"/>' * 40_000,
    "copied transform": '<path id="p" transform="'
    + "scale(1)" * 120
    + '" d="M0 0h1"/>'
    + '<use href="#p"/>' * 40_000,
}
"""What takes an hour if each character, or each copy, is looked at again and again."""


@pytest.mark.few(4)
@pytest.mark.parametrize("body", SLOW.values(), ids=SLOW)
def test_a_drawing_that_tries_to_be_slow_is_read_or_refused_in_time(program, body):
    program.write("p.svg", svg_of(polygons(PLATE) + body))
    with no_hang():
        assert program("new", "pad", "--from", "p.svg").status in (0, 2)


@pytest.mark.parametrize(
    "text", ["\n" * 9_000_000, "999\n" * 3_000_000, "0\nSECTION" + " " * 9_000_000]
)
def test_so_is_a_dxf(program, text):
    with no_hang():
        refused(program, "p.dxf", text)
