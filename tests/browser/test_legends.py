"""Legends on paper, as the PDF that a browser prints: every cap, in its true size."""

from __future__ import annotations

import io
from collections import Counter

import pdfplumber
import pytest

from matrixgen.emit.legends import PAPERS, legends_page, sheets_of
from tests.browser.paper import SIZES_CM
from tests.examples.shipped import example

POINTS_A_MM = 72 / 25.4
NEAR_MM = 0.2
MARGIN_MM = 10.0


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["goosander-104", "whimbrel-34"])
def test_each_cap_is_on_paper_at_its_true_size(started, page, tmp_path, name, paper):
    keyboard = example(name).keyboard
    sheets = sheets_of(keyboard, PAPERS[paper])
    file = tmp_path / "page.html"
    file.write_bytes(legends_page(sheets, PAPERS[paper], "Some caps"))
    page.goto(file.as_uri())
    width, height = (10 * side for side in SIZES_CM[paper])
    with pdfplumber.open(io.BytesIO(started.printed(page, paper, is_lying=False))) as printed:
        assert len(printed.pages) == len(sheets)
        found = []
        for number, (one, sheet) in enumerate(zip(printed.pages, sheets, strict=True), 1):
            assert (one.width / POINTS_A_MM, one.height / POINTS_A_MM) == pytest.approx(
                (width, height), abs=0.5
            )
            text = " ".join(one.extract_text().split())
            assert f"Some caps: sheet {number} of {len(sheets)}" in text
            caps = list(caps_of(one))
            assert len(caps) == len(sheet.stickers)
            for x0, y0, x1, y1 in [*caps, *ruler_of(one)]:
                assert x0 > MARGIN_MM - NEAR_MM and x1 < width - MARGIN_MM + NEAR_MM
                assert y0 > MARGIN_MM - NEAR_MM and y1 < height - MARGIN_MM + NEAR_MM
            found += [(x1 - x0, y1 - y0) for x0, y0, x1, y1 in caps]
    for key in keyboard.keys:
        size = key.width * 19.05 - 1.05, key.height * 19.05 - 1.05
        assert any(size == pytest.approx(one, abs=NEAR_MM) for one in found)
    said = Counter(round(wide) for wide, _ in found)
    truth = Counter(round(key.width * 19.05 - 1.05) for key in keyboard.keys)
    assert all(said[wide] >= count for wide, count in truth.items())


def caps_of(paper):
    """Yield the boxes of caps in millimetres: a browser prints round corners as a curve.

    Firefox also fills the whole paper.
    """
    for shape in [*paper.rects, *paper.curves]:
        box = [shape[side] / POINTS_A_MM for side in ("x0", "top", "x1", "bottom")]
        if shape["stroke"] and box[2] - box[0] > 10 and box[3] - box[1] > 10:
            yield box


def ruler_of(paper):
    """Yield the box of the line that is 100 mm long."""
    shapes = [*paper.lines, *paper.rects, *paper.curves]
    long = [s for s in shapes if abs((s["x1"] - s["x0"]) / POINTS_A_MM - 100) < 5]
    flat = [s for s in long if (s["bottom"] - s["top"]) / POINTS_A_MM < 3]
    (line,) = flat
    assert (line["x1"] - line["x0"]) / POINTS_A_MM == pytest.approx(100, abs=NEAR_MM)
    yield [line[side] / POINTS_A_MM for side in ("x0", "top", "x1", "bottom")]
