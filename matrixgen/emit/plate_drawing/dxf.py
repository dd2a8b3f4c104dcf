"""The plate as DXF: millimetres, seen from the front, y upwards, one layer for each kind of thing.

`ezdxf` writes it; its fixed dates and numbers are asked for, so that a plate gives the same bytes.
"""

from __future__ import annotations

import io
import logging
from typing import TYPE_CHECKING, Any

from matrixgen.emit.plate_drawing.svg import LAYERS
from matrixgen.model.geometry import Point
from matrixgen.plate.openings import Circle
from matrixgen.plate.outline import PathCorner
from matrixgen.plate.shape import PlateShape

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

OUTLINE, DIMENSIONS = "OUTLINE", "DIMENSIONS"
COLOURS = {OUTLINE: 7, "SWITCHES": 5, "STABILISERS": 3, "HOLES": 1, DIMENSIONS: 8}
"""Colours of AutoCAD's index: white or black, blue, green, red, grey."""

UNITLESS, MILLIMETRES = 0, 4
"""Values of $INSUNITS."""

TEXT_MM, AWAY_MM = 3.5, 10.0
"""How high the figures of dimensions are, and how far from the plate."""


def plate_dxf(shape: PlateShape, release: str, notes: tuple[str, ...]) -> bytes:
    """Return the drawing in a release of DXF, `R12` or `R2010`; `notes` stand in its head."""
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    logging.getLogger("ezdxf").setLevel(logging.ERROR)  # it warns that R12 has no units
    options.write_fixed_meta_data_for_testing = True
    is_old = release == "R12"  # which cannot say in what units it is
    drawing = new(release, units=UNITLESS if is_old else MILLIMETRES)
    drawing.header.custom_vars.clear()
    for name, colour in COLOURS.items():
        drawing.layers.add(name, color=colour)
    space = drawing.modelspace()
    _path(space, shape.outline, OUTLINE, is_old)
    for one in shape.openings:
        layer = LAYERS[one.kind].upper()
        if isinstance(one, Circle):
            space.add_circle(_up(one.middle), one.diameter / 2, dxfattribs={"layer": layer})
        else:
            _path(space, tuple(PathCorner(at, 0.0) for at in one.corners), layer, is_old)
    _dimensions(space, shape)
    for kind in sorted(drawing.entitydb.dxf_types_in_use()):
        drawing.classes.add_class(kind)  # else it takes them from a set, in the order of hashes
    text = io.StringIO()
    drawing.write(text)
    heads = "".join(f"999\n{note}\n" for note in notes)
    return (heads + text.getvalue()).encode("utf-8")


def _up(at: Point) -> Point:
    """Return a place as DXF has it, whose y grows upwards."""
    return round(at[0], 6) + 0.0, round(-at[1], 6) + 0.0


def _path(space: Modelspace, path: tuple[PathCorner, ...], layer: str, is_old: bool) -> None:
    """Add a closed line; clockwise arcs bulge to the other side once y grows upwards."""
    points = [(*_up(corner.at), -corner.bulge) for corner in path]
    said: dict[str, Any] = {"format": "xyb", "close": True, "dxfattribs": {"layer": layer}}
    if is_old:
        space.add_polyline2d(points, **said)
    else:
        space.add_lwpolyline(points, **said)


def _dimensions(space: Modelspace, shape: PlateShape) -> None:
    """Add the overall size above and left, and each screw hole's place from the upper left corner.

    They are plain lines and words, which every program shows.
    """
    left, top, right, bottom = shape.bounds
    said = {"layer": DIMENSIONS}
    for start, end, off, value, turn in (
        ((left, top), (right, top), (0, -AWAY_MM), right - left, 0),
        ((left, bottom), (left, top), (-AWAY_MM, 0), bottom - top, 90),
    ):
        ends = [(x + off[0], y + off[1]) for x, y in (start, end)]
        space.add_line(_up(ends[0]), _up(ends[1]), dxfattribs=said)
        for at, to in zip((start, end), ends, strict=True):
            space.add_line(_up(at), _up(to), dxfattribs=said)
        x, y = ((ends[0][n] + ends[1][n]) / 2 for n in (0, 1))
        _word(space, (x + off[0] / 5, y + off[1] / 5), f"{value:.2f}", turn)
    for one in shape.openings:
        if isinstance(one, Circle):
            x, y = one.middle
            words = f"{x - left:.2f}, {y - top:.2f}  d {one.diameter:g}"
            _word(space, (x + one.diameter, y - one.diameter), words, 0)


def _word(space: Modelspace, at: Point, words: str, turn: float) -> None:
    text = space.add_text(words, height=TEXT_MM, rotation=turn, dxfattribs={"layer": DIMENSIONS})
    text.set_placement(_up(at))
