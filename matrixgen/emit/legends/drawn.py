"""The sheets of legends as files: one SVG, or a page to print, a sheet of paper each."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen import __version__
from matrixgen.emit.legends.sheets import MARGIN_MM, LegendPaper, LegendSheet, sheets_of
from matrixgen.emit.sheet.content_policy import with_policy
from matrixgen.emit.sheet.pictures import markup
from matrixgen.model import Keyboard

AROUND_MM = 5.0
"""The room round all caps of a drawing."""

RULER_MM = 100.0
"""How long the line is by which paper is measured."""


def legends_svg(keyboard: Keyboard) -> bytes:
    """Return all caps as one drawing."""
    (sheet,) = sheets_of(keyboard)
    template = markup().get_template("plate/legends.svg.j2")
    text = template.render(sheet=sheet, around=AROUND_MM)
    return text.encode("utf-8")


def legends_page(sheets: Sequence[LegendSheet], paper: LegendPaper, title: str) -> bytes:
    """Return a page that prints each sheet on a sheet of paper, at its true size."""
    text = (
        markup()
        .get_template("plate/legends.html.j2")
        .render(
            sheets=sheets,
            paper=paper,
            title=title or "a keyboard",
            margin=MARGIN_MM,
            ruler=RULER_MM,
            version=__version__,
        )
    )
    return with_policy(text).encode("utf-8")
