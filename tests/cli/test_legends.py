"""`matrixgen legends`: what it writes, what it says, and what it refuses."""

from __future__ import annotations

import pytest

LAYERS = "".join(f"\nlayer layer-{number}\n  A = F{number}\n" for number in range(1, 8))
PAD = f'keyboard "Pad"\n\nplate\n  line A B:2 C\n\nlayer base\n  A = Q\n{LAYERS}'


def test_one_drawing_has_all_layers(program):
    name = program.write("pad.keys", PAD)
    for _ in range(2):
        ran = program("legends", name)
        assert (ran.status, ran.err) == (0, "")
        assert ran.out.endswith("3 caps, 8 layers\n")
    text = (program.folder / "pad-legends.svg").read_text()
    assert text.startswith("<!-- made by matrixgen -->")
    assert all(f">F{number}</text>" in text for number in range(1, 8))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_page_for_paper_is_written_and_written_over(program, paper):
    name = program.write("pad.keys", PAD)
    written = set()
    for _ in range(2):
        ran = program("legends", name, "--paper", paper)
        assert (ran.status, ran.err) == (0, "")
        assert ran.out.endswith(f"3 caps, 8 layers, 1 sheet of {paper}\n")
        written.add((program.folder / "pad-legends.html").read_bytes())
    (page,) = written
    assert f"@page {{ size: {paper} portrait; margin: 10mm; }}".encode() in page


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--paper", "A4", "-o", "pad.svg"), "`pad.svg` is no page, which is what --paper writes"),
        (("-o", "pad.html"), "`pad.html` is a page, and the legends are one SVG"),
        (("--paper", "A9"), "invalid choice: 'A9'"),
        (("--paper", "A4", "-o", "nowhere/pad.html"), "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_line(program, words, said):
    ran = program("legends", program.write("pad.keys", PAD), *words)
    assert ran.status == 2
    assert said in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["pad.keys"]


def test_somebody_else_s_page_stays(program):
    (program.folder / "mine.html").write_text("<p>mine</p>")
    ran = program("legends", program.write("pad.keys", PAD), "--paper", "A4", "-o", "mine.html")
    assert ran.status == 2
    assert (program.folder / "mine.html").read_text() == "<p>mine</p>"
