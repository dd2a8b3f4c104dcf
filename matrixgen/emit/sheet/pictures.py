"""The pictures as SVG: for the page, or each a file of its own."""

from __future__ import annotations

import functools
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup, escape

from matrixgen.emit.jinja import over_templates
from matrixgen.emit.outside_text import seen
from matrixgen.emit.sheet.back import BackPicture
from matrixgen.emit.sheet.board import BoardPicture
from matrixgen.emit.sheet.frame import number
from matrixgen.emit.sheet.front import Front, LayerPicture, legend_below
from matrixgen.resources import resource


@functools.cache
def markup() -> jinja2.Environment:
    """Return the environment for pages and pictures: what is put in is escaped."""
    return over_templates("markup", {"mm": number}, autoescape=True, finalize=_seen)


def _seen(value: Any) -> Any:
    """Return what is put in with each letter to be seen; what is markup already stays as it is."""
    return seen(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def front_svg(front: Front, layer: LayerPicture, *, alone: bool = False, marks: str = "") -> str:
    """Return the plate from the front with one layer's caps.

    A drawing that is a file of its own has the legend of its short forms below it, and the rules of
    style of the `marks` of findings.
    """
    legend = legend_below(front, layer) if alone else None
    context = {"front": front, "layer": layer, "legend": legend, "id": None}
    return _rendered("front.svg.j2", alone, marks, **context)


def back_svg(back: BackPicture, *, alone: bool = False, marks: str = "") -> str:
    """Return the plate from behind with its wires, with `marks` as `front_svg` has them."""
    return _rendered("back.svg.j2", alone, marks, back=back)


def board_svg(board: BoardPicture, *, alone: bool = False) -> str:
    """Return the controller seen from one side."""
    return _rendered("board.svg.j2", alone, "", board=board)


def _rendered(template: str, alone: bool, marks: str, **context: Any) -> str:
    """Render a picture; one that is a file of its own carries its style."""
    style = escape(style_text("picture.css") + marks) if alone else None
    return markup().get_template(f"sheet/{template}").render(style=style, **context)


def style_text(name: str) -> str:
    """Return a style sheet of the templates."""
    path: Path = resource("templates") / "sheet" / name
    return path.read_text(encoding="utf-8")
