"""`matrixgen plate`: what it writes, what it says, and what it refuses."""

from __future__ import annotations

import pytest

PAD = 'keyboard "Pad"\n\nplate\n  line A B:2 C\n  hole at 2, 1.3\n'


@pytest.mark.parametrize(
    ("ending", "begins"), [("dxf", b"999\n"), ("svg", b"<!--"), ("stl", b"made"), ("3mf", b"PK")]
)
def test_each_kind_of_file_is_written_and_written_over(program, ending, begins):
    name = program.write("pad.keys", PAD)
    for _ in range(2):
        ran = program("plate", name, "-o", f"plate.{ending}")
        assert ran.status == 0
        assert ran.out.startswith(f"plate.{ending}: ")
        assert "88.2 by " in ran.out and "3 switches, 1 stabiliser, 1 screw hole\n" in ran.out
    assert (program.folder / f"plate.{ending}").read_bytes().startswith(begins)


def test_nothing_else_is_said_of_an_old_dxf(program, caplog):
    ran = program("plate", program.write("pad.keys", PAD), "-o", "plate.dxf", "--r12")
    assert (ran.status, ran.err, caplog.messages) == (0, "", [])


def test_without_a_name_it_is_called_as_the_file_is(program):
    assert program("plate", program.write("pad.keys", PAD)).status == 0
    assert (program.folder / "pad.dxf").exists()


def test_standard_output_gets_the_svg(program):
    ran = program("plate", program.write("pad.keys", PAD), "-o", "-")
    assert ran.status == 0
    assert ran.out.startswith("<!-- made by matrixgen") and ran.out.endswith("</svg>\n")


def test_somebody_else_s_file_stays(program):
    (program.folder / "plate.dxf").write_text("0\nSECTION\n")
    ran = program("plate", program.write("pad.keys", PAD), "-o", "plate.dxf")
    assert ran.status == 2
    assert "`plate.dxf` is there already, and this program did not write it" in ran.err
    assert (program.folder / "plate.dxf").read_text() == "0\nSECTION\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("-o", "plate.step"), "`plate.step` ends in no kind of file that a plate is written to"),
        (("-o", "plate"), "`plate` ends in no kind of file"),
        (("--kerf", "2"), "`2` is no length from 0 to 1 mm"),
        (("--kerf", "nan"), "`nan` is no length"),
        (("--thickness", "0.5"), "`0.5` is no length from 1 to 20 mm"),
        (("-o", "nowhere/plate.svg"), "cannot be written"),
        (("--thickness", "3"), ".dxf has no thickness"),
        (("--r12", "-o", "plate.svg"), "--r12 is a form of DXF, and not of .svg"),
        (("--bed", "235"), "`235` is no size: write it as in 235x235"),
        (("--bed", "235x9"), "`9` is no length from 50 to 2000 mm"),
        (("--bed", "235x235"), "--bed divides a plate to print, not .dxf"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_line(program, words, said):
    ran = program("plate", program.write("pad.keys", PAD), *words)
    assert ran.status == 2
    assert said in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["pad.keys"]


@pytest.mark.parametrize(("ending", "package"), [("dxf", "ezdxf"), ("3mf", "manifold3d")])
def test_a_package_that_is_not_installed_is_named(program, monkeypatch, ending, package):
    monkeypatch.setattr("matrixgen.jobs.plate.find_spec", lambda name: None)
    name = program.write("pad.keys", PAD)
    ran = program("plate", name, "-o", f"plate.{ending}")
    assert ran.status == 2
    assert f"to write .{ending} takes the Python package `{package}`" in ran.err
    assert "pip install 'matrixgen[plate]'" in ran.err
    assert program("plate", name, "-o", "plate.svg").status == 0


def test_a_file_with_findings_is_drawn_and_one_that_does_not_read_is_not(program):
    wrong = program.write("pad.keys", PAD + "  keep clear 0.2, 0.2, 0.5, 0.5\n")
    ran = program("plate", wrong, "-o", "plate.svg")
    assert ran.status == 0 and "keep-clear-over-key" in ran.err
    ran = program("plate", program.write("bad.keys", "plate\n  lime A\n"), "-o", "bad.svg")
    assert ran.status == 1 and not (program.folder / "bad.svg").exists()


def test_a_plate_that_is_too_long_for_a_bed_is_divided_or_it_is_said_that_it_cannot_be(program):
    keys = " ".join(f"K{number}" for number in range(20))
    name = program.write("pad.keys", f"plate\n  line {keys}\n")
    ran = program("plate", name, "-o", "pad.3mf", "--bed", "235x235")
    assert ran.status == 0 and ran.out.endswith("20 switches, in 2 parts\n")
    ran = program("plate", name, "-o", "pad.3mf", "--bed", "50x20")
    assert ran.status == 2
    far = program.write("far.keys", "plate\n  line A\n  cluster b at 900, 0\n    line B\n")
    ran = program("plate", far, "-o", "far.3mf", "--bed", "50x50")
    assert ran.status == 2
    assert "this plate cannot be divided for such a bed: it would be in more than 20" in ran.err
    assert not (program.folder / "far.3mf").exists()


def test_a_plate_that_is_too_deep_is_divided_across_or_it_is_said_where_it_cannot_be(program):
    lines = "".join(f"  line A{row} B{row} C{row} D{row}\n" for row in range(4))
    name = program.write("pad.keys", f"plate\n{lines}")
    ran = program("plate", name, "-o", "pad.3mf", "--bed", "60x60")
    assert ran.status == 0
    assert ran.out.endswith("16 switches, in 4 parts, in strips of 2 and 2 from above\n")
    close = program.write("close.keys", "plate\n" + lines.replace(" line", " line down -0.3"))
    ran = program("plate", close, "-o", "close.3mf", "--bed", "52x52")
    assert ran.status == 2
    assert "no line goes across it between its openings, 20 to 51 mm" in ran.err
    assert "from its upper edge\n" in ran.err and not (program.folder / "close.3mf").exists()


def test_a_test_piece_has_two_switches_and_a_stabiliser(program):
    name = program.write("pad.keys", PAD)
    ran = program("plate", name, "-o", "piece.svg", "--test-piece")
    assert ran.status == 0 and "2 switches, 1 stabiliser\n" in ran.out


NOTCHED = """\
plate
  line A B C
  outline from -1, -1 to 4, -1 to 4, 2 to 2.02, 2 to 2.02, 1.8 to 2, 1.8 to 2, 2 to -1, 2
"""


def test_a_notch_that_the_cut_has_no_room_in_is_said_and_nothing_is_written(program):
    """It is 0.38 mm wide."""
    name = program.write("pad.keys", NOTCHED)
    ran = program("plate", name, "--kerf", "0.5")
    assert ran.status == 2 and ran.out == ""
    assert "the plate's outline has a notch that a cut of 0.5 mm has no room in" in ran.err
    assert not (program.folder / "pad.dxf").exists()
    assert program("plate", name, "--kerf", "0.3").status == 0


def test_the_option_comes_before_the_thickness_of_the_file(program):
    name = program.write("pad.keys", PAD + "  thickness 2 mm\n")
    made = {"file": (), "same": ("--thickness", "2"), "option": ("--thickness", "4")}
    for called, words in made.items():
        assert program("plate", name, "-o", f"{called}.stl", *words).status == 0
    solids = {called: (program.folder / f"{called}.stl").read_bytes() for called in made}
    assert solids["file"] == solids["same"] != solids["option"]
