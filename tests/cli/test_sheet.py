"""`matrixgen sheet`: what it writes, what it says, what it leaves alone."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys

import pytest

from tests.texts import good_on

PLATE = "plate\n  line A B\n"
TWO = good_on("atmega32u4, rp2040-40pin", "PD0, GP0", "PB0, GP1", "PB1, GP2")


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
    assert "PD0\u00a0\u00a0r0" in page


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


def test_a_controller_that_is_asked_for_of_a_file_without_one_is_refused(program):
    ran = program("sheet", program.write("plate.keys", PLATE), "--controller", "stick-32u4")
    assert ran.status == 2
    assert names(program) == ["plate.keys"]
    assert "names no controller `stick-32u4`" in ran.err
    assert "it names none" in ran.err


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
    from tests.texts import GOOD

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


BROKEN = """\
keyboard "Broken"
  controller atmega32u4

plate
  line A B "C
"""
WRONG = """\
keyboard "Wrong"
  controller atmega32u4

plate
  line A B C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  reversed B
  row    r0 on PD0  A B
  row    r1         D
  column c0 on PD0  A D
  column c1 on PZ9  B
"""


def page_of(program, text: str) -> tuple[str, str, str]:
    ran = program("sheet", program.write("pad.keys", text))
    assert ran.status == 0
    return (program.folder / "pad.html").read_text(encoding="utf-8"), ran.out, ran.err


def test_a_file_with_errors_is_drawn_and_each_is_listed_and_marked(program):
    page, out, err = page_of(program, WRONG)
    assert "; 4 errors, marked and listed on the page\n" in out
    for slug in ("key-on-no-row", "diode-against-scan", "pin-used-twice", "pin-not-on-controller"):
        assert f"error[{slug}]" in err
        assert f"<code>{slug}</code>" in page
    assert "Not in the file yet: no pin for `r1`, no action for" not in page
    assert "Not in the file yet: no pin for `r1`." in page
    front = page.split("From behind")[0]
    assert '<g class="key given found" data-key="B"' in front
    assert '<g class="key given" data-key="A"' in front
    assert '.wire[data-wire="r0"] .edge' in page and '.wire[data-wire="c1"] .edge' in page
    assert '.wire[data-wire="r1"]' not in page
    assert re.search(r'<th scope="row">c0 <strong class="found">!\d</strong>', page)
    assert "its keys can be pressed once they are corrected" in page


def test_only_a_file_that_does_not_read_is_refused(program):
    ran = program("sheet", program.write("pad.keys", BROKEN))
    assert ran.status == 1
    assert names(program) == ["pad.keys"]


def test_a_page_without_findings_has_no_list_of_them(program):
    page, out, _ = page_of(program, program_text())
    assert 'class="findings"' not in page and "listed" not in out


def program_text() -> str:
    from tests.texts import GOOD

    return GOOD


def test_a_reversed_diode_has_its_band_at_the_other_end(program):
    program("sheet", program.write("pad.keys", WRONG), "--drawing", "back")
    drawing = (program.folder / "pad-back.svg").read_text(encoding="utf-8")
    diodes = re.findall(
        r'<g class="diode" data-key="(\w)">.*?class="glass" points="(\S+) (\S+)"/>'
        r'<polyline class="band" points="(\S+) (\S+)"/>',
        drawing,
    )
    at_leg = {}
    for key, *points in diodes:
        leg, end, band, _ = (tuple(map(float, one.split(","))) for one in points)
        at_leg[key] = math.dist(band, leg) < math.dist(band, end)
    assert at_leg == {"A": at_leg["A"], "B": not at_leg["A"], "D": at_leg["A"]}


def test_the_page_or_one_drawing_goes_to_standard_output(program):
    program.write("pad.keys")
    for words, begins in (
        ((), b"<!DOCTYPE html>"),
        (("--svg", "--drawing", "back"), b"<!-- made by matrixgen -->\n<svg"),
    ):
        command = [sys.executable, "-m", "matrixgen", "sheet", "pad.keys", "-o", "-", *words]
        ran = subprocess.run(command, capture_output=True, cwd=program.folder, check=False)
        assert ran.returncode == 0
        assert ran.stdout.startswith(begins)
        assert b"2 keys, 1 layer" in ran.stderr and b"2 keys, 1 layer" not in ran.stdout
    assert names(program) == ["pad.keys"]
    assert program("sheet", "pad.keys", "--drawing", "back", "-o", "mine.svg").status == 0
    assert names(program) == ["mine.svg", "pad.keys"]
    ran = program("sheet", "pad.keys", "--svg", "-o", "-")
    assert ran.status == 2 and "standard output takes one drawing" in ran.err
    ran = program("sheet", "pad.keys", "--drawing", "bakc")
    assert ran.status == 2 and "no drawing `bakc`" in ran.err and "`back`" in ran.err


def test_a_diode_that_a_file_describes_is_called_by_its_part(program):
    from matrixgen.resources import resource

    known = json.loads((resource("boards") / "diodes.json").read_text("utf-8"))
    known["diodes"] = [known["diodes"][0] | {"name": "1N4148"}]
    program.write("my-diode.json", json.dumps(known))
    text = program_text().replace("diodes 1N4148", 'diodes "my-diode.json"')
    for one in (text, text.replace("  controller atmega32u4\n", "").replace(" on PD0", "")):
        page, _, _ = page_of(program, one)
        assert "diodes 1N4148, with leads" in page
        assert "my-diode" not in page
    assert program("build", program.write("pad.keys", text), "--sources").status == 0
    pins = (program.folder / "pad" / "pins.md").read_text("utf-8")
    assert "One 1N4148 at each switch" in pins and "my-diode" not in pins


def test_a_page_lists_the_first_findings_and_counts_the_others(program):
    """Whatever a file is full of, its page stays small enough to be opened."""
    keys = " ".join(f"k{number}" for number in range(401))
    wiring = f"wiring\n  diodes 1N4148, band toward rows\n  row r0  {keys}\n  column c0  k0\n"
    page, out, _ = page_of(program, f"plate\n  line {keys}\n\n{wiring}")
    assert "; 300 errors, marked and listed on the page, 100 more not\n" in out
    assert page.count("<code>key-on-no-column</code>") == 300
    assert "<p>And 100 more: <code>matrixgen check</code> lists them all.</p>" in page
