"""Bundles of wires on the sheet: their names stand in the margin, or below if that is too wide."""

import re

from matrixgen.emit.sheet import back_svg, page
from matrixgen.emit.sheet.bundles import WIDEST_MM
from matrixgen.emit.sheet.font import width_of
from matrixgen.emit.sheet.labels import SIZE_MM
from tests.sheet.pictures import sheet_in

MANY = range(12)
BUNDLE = re.compile(r'class="wire-label bundle-label"[^>]*>([^<]*)<')
LISTED = re.compile(r"<li><b>(bundle \d+)</b>: ([^<]*)</li>")


def drawn(prefix):
    """Return the page and the back of twelve keys in a line, all wired to a board at its end.

    Above and below them there is room for some of the wires.
    """
    keys = " ".join(f"k{number}" for number in MANY)
    rows = "\n".join(f"  row {prefix}{number} on GPIO{number} k{number}" for number in MANY)
    text = (
        'keyboard "Twelve"\n  controller rp2040-40pin\n\n'
        f"plate\n  line {keys}\n  controller at 22, 0\n"
        "  keep clear -1, -9, 22, 9.05\n  keep clear -1, 0.95, 22, 9\n\n"
        f"wiring\n  diodes 1N4148, band toward rows\n{rows}\n  column all on GPIO20 {keys}\n"
    )
    sheet = sheet_in(text)
    assert sheet.back
    return page(sheet).decode(), back_svg(sheet.back)


def test_a_bundle_has_its_wires_in_the_margin_or_a_number_there_and_its_wires_below():
    text, back = drawn("a-long-name-of-row-")
    labels, listed = BUNDLE.findall(back), dict(LISTED.findall(text))
    assert labels and listed
    assert {label for label in labels if "+" not in label} == set(listed)
    for label in labels:
        assert width_of(label, SIZE_MM) <= WIDEST_MM
    for wires in listed.values():
        assert len(wires.split(", ")) > 1
        assert set(wires.split(", ")) <= {f"a-long-name-of-row-{number}" for number in MANY} | {
            "all"
        }


def test_short_names_all_stand_in_the_margin():
    _, back = drawn("r")
    labels = BUNDLE.findall(back)
    assert labels
    assert all(width_of(label, SIZE_MM) <= WIDEST_MM for label in labels)
