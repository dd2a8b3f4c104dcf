"""The bench sheet on paper, as the PDF that a browser prints: true sizes, tiles, cards."""

from __future__ import annotations

import io
import re
from contextlib import contextmanager
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest

from matrixgen.emit.sheet import page as written
from matrixgen.emit.sheet.ink import inks
from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.sheet import sheet_of_examined
from tests.amounts import IS_LONG
from tests.examples.shipped import NAMES, example

POINTS_A_MM = 72 / 25.4
ARM_MM = 8
TRUE_SIZE = "true size. Sheet"
WIRE = re.compile(r"([\w-]+), (?:row|column), [a-z ,]+, pin ")
APART = re.compile(r"Its crosses are ([\d.]+) mm apart across and ([\d.]+) mm down")
TEN = """\
keyboard "Ten"
  controller rp2040-40pin

plate
{plate}

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on GP20  0 to 9
{columns}
"""


IN_A_ROW = "  line 0 1 2 3 4 5 6 7 8 9"
FAR_APART = (
    "  line 0 ~10 1 ~9.5 2\n  line 3\n  line 4\n  line 5\n  line 6\n  line 7\n  line 8 ~10 9"
)


def open_keys(page, plate: str, folder: Path) -> None:
    """Open the sheet of ten keys that lie so on their plate."""
    columns = "\n".join(f"  column c{n} on GP{n}  {n}" for n in range(10))
    examined = examine_text("ten.keys", TEN.format(plate=plate, columns=columns), folder)
    assert examined.design is not None, examined.findings
    file = folder / "page.html"
    sheet = sheet_of_examined(examined, examined.design, examined.mounted[0])
    file.write_bytes(written(sheet))
    page.goto(file.as_uri())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_ten_units_are_190_5_mm_on_paper(started, page, tmp_path, paper):
    """In the PDF that the browser prints: the front's keys, end to end, and the back's switches."""
    open_keys(page, IN_A_ROW, tmp_path)
    with pdfplumber.open(io.BytesIO(started.printed(page, paper))) as printed:
        assert width_mm(printed, 19.05) == pytest.approx(190.5, abs=0.3)
        assert width_mm(printed, 14.0) == pytest.approx(9 * 19.05 + 14, abs=0.3)


def width_mm(printed: pdfplumber.PDF, side: float) -> float:
    """Return how far it is from the first to the last of ten squares, of a size in millimetres."""
    for paper in printed.pages:
        shapes = [*paper.rects, *paper.curves]
        squares = [s for s in shapes if abs(s["x1"] - s["x0"] - side * POINTS_A_MM) < 0.8]
        if len(squares) >= 10:
            return (max(s["x1"] for s in squares) - min(s["x0"] for s in squares)) / POINTS_A_MM
    raise AssertionError(f"no page has ten squares of {side} mm")


def test_every_layer_is_on_paper(started, sheet_page):
    page = sheet_page("whimbrel-34")
    text = "\n".join(texts_of(started.printed(page, "A4")))
    for layer in example("whimbrel-34").keyboard.layers:
        assert f"Layer {layer.name.text}" in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_picture_too_large_for_a_sheet_is_there_at_its_true_size_in_parts(
    started, page, tmp_path, paper
):
    """Four crosses on each sheet, as far from each other as it says."""
    open_keys(page, FAR_APART, tmp_path)
    with pages_with(TRUE_SIZE, started.printed(page, paper)) as tiles:
        assert len(tiles) == 6
        for one in tiles:
            across, down = map(float, APART.search(one.extract_text().replace("\n", " ")).groups())
            left, right, top, bottom = crosses(one)
            assert right - left == pytest.approx(across, abs=0.2)
            assert bottom - top == pytest.approx(down, abs=0.2)
            assert left > 0 and right < float(one.width) / POINTS_A_MM


def crosses(paper):
    """Return the least and largest place of four crosses in millimetres: across, then down."""
    arms = []
    for shape in shapes(paper):
        wide, high = shape["x1"] - shape["x0"], shape["bottom"] - shape["top"]
        if abs(max(wide, high) - ARM_MM * POINTS_A_MM) < 0.5 and min(wide, high) < 1:
            arms.append(shape)
    xs = {round((one["x0"] + one["x1"]) / 2 / POINTS_A_MM, 1) for one in arms}
    ys = {round((one["top"] + one["bottom"]) / 2 / POINTS_A_MM, 1) for one in arms}
    assert len(arms) == 8
    return min(xs), max(xs), min(ys), max(ys)


def test_each_wire_has_a_card_on_which_it_is_drawn_four_to_a_page(started, sheet_page):
    mounted = example("heron-12").mounted
    page = sheet_page("heron-12")
    drawn = inks(mounted.keyboard.wiring)
    with pages_with("the last one for the controller", started.printed(page, "A4")) as pages:
        found = [WIRE.findall(text_of(one)) for one in pages]
        assert [len(wires) for wires in found] == [4, len(drawn) - 4]
        assert {name for wires in found for name in wires} == set(drawn)
        for one, wires in zip(pages, found, strict=True):
            colours = {shade(colour) for shape in shapes(one) for colour in colours_of(shape)}
            assert {drawn[name].css for name in wires} <= colours


def text_of(paper):
    return " ".join(paper.extract_text().split())


def shapes(paper):
    return [*paper.lines, *paper.curves, *paper.rects]


def colours_of(shape):
    """Return the colours of a shape: a browser may print dashes as lines or as what it fills."""
    return filter(None, (shape["stroking_color"], shape["non_stroking_color"]))


def shade(colour):
    """Return a colour of a PDF, in parts of one, as CSS has it."""
    parts = colour * 3 if len(colour) == 1 else colour
    return "#" + "".join(f"{round(part * 255):02x}" for part in parts)


@pytest.mark.parametrize("name", NAMES if IS_LONG else ["goosander-104", "heron-12", "knot-21"])
def test_no_page_has_a_title_alone(started, sheet_page, name):
    page = sheet_page(name)
    printed = started.printed(page, "A4")
    few = [number for number, text in enumerate(texts_of(printed)) if len(text) <= 80]
    if few:  # then there has to be a picture
        with pdfplumber.open(io.BytesIO(printed), pages=[number + 1 for number in few]) as found:
            assert all(len(shapes(one)) > 10 for one in found.pages)


def texts_of(printed):
    """Return the text of each page, by a reader that is quick about pictures."""
    return [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(printed)]


@contextmanager
def pages_with(words, printed):
    """Give the pages that have some words on them."""
    texts = [" ".join(text.split()) for text in texts_of(printed)]
    numbers = [number for number, text in enumerate(texts, 1) if words in text]
    with pdfplumber.open(io.BytesIO(printed), pages=numbers) as found:
        yield found.pages
