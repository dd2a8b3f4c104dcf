"""The plate as SVG at its true size, for laser cutters: a millimetre is a unit."""

from __future__ import annotations

from itertools import pairwise
from math import atan, dist, sin

from matrixgen.emit.sheet.frame import number
from matrixgen.emit.sheet.pictures import markup
from matrixgen.model.geometry import Point
from matrixgen.plate.openings import Bar, Circle
from matrixgen.plate.outline import PathCorner
from matrixgen.plate.shape import PlateShape

LAYERS = {
    "switch": "switches",
    "stabiliser": "stabilisers",
    **dict.fromkeys(("hole", "light", "knob"), "holes"),
}
"""The layer of each kind of opening."""

AROUND_MM = 1.0


def plate_svg(shape: PlateShape, notes: tuple[str, ...]) -> bytes:
    """Return the drawing, with `notes` in its head."""
    left, top, right, bottom = shape.bounds
    text = (
        markup()
        .get_template("plate/plate.svg.j2")
        .render(
            notes=notes,
            x=left - AROUND_MM,
            y=top - AROUND_MM,
            width=right - left + 2 * AROUND_MM,
            height=bottom - top + 2 * AROUND_MM,
            outline=_arcs(shape.outline),
            layers=[_layer(shape, name) for name in dict.fromkeys(LAYERS.values())],
        )
    )
    return text.encode("utf-8")


def _layer(shape: PlateShape, name: str) -> tuple[str, list[str], list[Circle]]:
    of_kind = [one for one in shape.openings if LAYERS[one.kind] == name]
    bars = [_straight(one.corners) for one in of_kind if isinstance(one, Bar)]
    return name, bars, [one for one in of_kind if isinstance(one, Circle)]


def _straight(corners: tuple[Point, ...]) -> str:
    return f"M{'L'.join(map(_place, corners))}Z"


def _arcs(path: tuple[PathCorner, ...]) -> str:
    """Return a closed path of sides and arcs."""
    parts = [f"M{_place(path[0].at)}"]
    for corner, following in pairwise([*path, path[0]]):
        if corner.bulge:
            radius = number(dist(corner.at, following.at) / 2 / abs(sin(2 * atan(corner.bulge))))
            way = int(corner.bulge > 0)
            parts.append(f"A{radius} {radius} 0 0 {way} {_place(following.at)}")
        else:
            parts.append(f"L{_place(following.at)}")
    return "".join([*parts, "Z"])


def _place(at: Point) -> str:
    return f"{at[0]:.4f} {at[1]:.4f}"
