"""`matrixgen sheet`: what it writes, what it says, what it leaves alone."""

from __future__ import annotations

import pytest

PLATE = "plate\n  line A B\n"
TWO = """\
keyboard "Pad"
  controller atmega32u4, rp2040-40pin

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0, GP0  A B
  column c0 on PB0, GP1  A
  column c1 on PB1, GP2  B
"""


def names(program) -> list[str]:
    return sorted(path.name for path in program.folder.iterdir())


def test_the_page_is_called_as_the_file_is(program):
    ran = program("sheet", program.write("pad.keys"))
    assert ran.status == 0
    assert names(program) == ["pad.html", "pad.keys"]
    assert "2 keys, 1 layer, 3 wires of 0.6 m in all, 0 jumpers\n" in ran.out
    page = (program.folder / "pad.html").read_text(encoding="utf-8")
    assert "<title>Pad: bench sheet</title>" in page
    assert "PD0 ← <" not in page
    assert "r0 → PD0" in page


def test_an_own_page_is_written_anew_and_somebody_else_s_never(program):
    program.write("pad.keys")
    assert program("sheet", "pad.keys", "-o", "mine.html").status == 0
    assert program("sheet", "pad.keys", "-o", "mine.html").status == 0
    program.write("notes.html", "<p>My notes</p>")
    ran = program("sheet", "pad.keys", "-o", "notes.html")
    assert ran.status == 2
    assert "`notes.html` is there already, and this program did not write it" in ran.err
    assert (program.folder / "notes.html").read_text() == "<p>My notes</p>"


def test_a_plate_alone_is_drawn_and_the_page_says_what_is_not_there_yet(program):
    ran = program("sheet", program.write("plate.keys", PLATE))
    assert ran.status == 0
    page = (program.folder / "plate.html").read_text(encoding="utf-8")
    assert "The file has no wiring yet" in page
    assert "The file names no controller yet" in page


def test_of_several_controllers_one_has_to_be_named(program):
    program.write("two.keys", TWO)
    ran = program("sheet", "two.keys")
    assert ran.status == 2
    assert "choose one with --controller NAME" in ran.err
    assert names(program) == ["two.keys"]
    assert program("sheet", "two.keys", "--controller", "rp2040-40pin").status == 0
    assert "GPIO0 (GP0)" in (program.folder / "two.html").read_text(encoding="utf-8")
    ran = program("sheet", "two.keys", "--controller", "stick-32u4")
    assert ran.status == 2
    assert "names no controller `stick-32u4`" in ran.err


def test_pictures_alone_are_files_of_their_own(program):
    assert program("sheet", program.write("pad.keys"), "--svg").status == 0
    assert names(program) == [
        "pad-back.svg",
        "pad-controller-turned-over.svg",
        "pad-controller.svg",
        "pad-front-base.svg",
        "pad.keys",
    ]
    assert program("sheet", "pad.keys", "--svg", "-o", "drawn").status == 0
    assert "drawn-back.svg" in names(program)


def test_a_picture_of_somebody_else_s_stops_all_of_them(program):
    program.write("pad.keys")
    program.write("pad-controller.svg", "<svg/>")
    assert program("sheet", "pad.keys", "--svg").status == 2
    assert names(program) == ["pad-controller.svg", "pad.keys"]


@pytest.mark.parametrize(
    ("text", "slug"),
    [("plate\n  line A A\n", "error["), ("plate\n  line A:\n", "error[")],
    ids=["two keys of one name", "unreadable"],
)
def test_a_file_with_mistakes_is_not_drawn(program, text, slug):
    ran = program("sheet", program.write("bad.keys", text))
    assert ran.status == 1
    assert slug in ran.err
    assert names(program) == ["bad.keys"]


def test_a_folder_in_the_way_and_one_that_is_not_there(program):
    program.write("pad.keys")
    (program.folder / "out.html").mkdir()
    assert "is a folder" in program("sheet", "pad.keys", "-o", "out.html").err
    ran = program("sheet", "pad.keys", "-o", "nowhere/out.html")
    assert ran.status == 2
    assert "nowhere/out.html` cannot be written" in ran.err


def test_from_standard_input_the_page_is_called_as_the_keyboard_is(program):
    from tests.cli.conftest import GOOD

    assert program("sheet", "-", stdin=GOOD.encode()).status == 0
    assert names(program) == ["pad.html"]


def test_words_of_the_file_are_text_on_the_page(program):
    text = (
        'keyboard "<b>&</script>"\n  controller atmega32u4\n\n'
        "plate\n  line A\n\nlayer base\n  A = Shift+Comma\n"
    )
    assert program("sheet", program.write("odd.keys", text)).status == 0
    page = (program.folder / "odd.html").read_text(encoding="utf-8")
    assert "<h1>&lt;b&gt;&amp;&lt;/script&gt;</h1>" in page
    assert page.count("</script>") == page.count("<script")


def test_a_build_has_the_page_and_the_manifest_lists_it(program):
    ran = program("build", program.write("pad.keys"), "--sources")
    assert ran.status == 0
    assert "pad/sheet.html: drawings and lists to wire it by" in ran.out
    assert (program.folder / "pad" / "sheet.html").is_file()
    assert '"sheet.html":' in (program.folder / "pad" / "manifest.json").read_text()
    page = (program.folder / "pad" / "sheet.html").read_text(encoding="utf-8")
    assert "made without a compiler" in page and '"engine":null' in page
    assert program("build", "pad.keys", "--compiler", "clang").status == 0
    page = (program.folder / "pad" / "sheet.html").read_text(encoding="utf-8")
    assert "made without a compiler" not in page and '"engine":"' in page
