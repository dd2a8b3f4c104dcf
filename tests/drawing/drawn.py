"""Drawings made of a keyboard's switches, as DXF and as SVG, and what is read back of them."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from math import cos, hypot, radians, sin
from pathlib import Path

import ezdxf
from ezdxf import units

from matrixgen.cli.main import main
from matrixgen.model import Keyboard
from matrixgen.model.geometry import centre_of
from matrixgen.source import read_design

UNIT = 19.05
NEAR_MM = 0.02
CORNER_MM = 7 * 2**0.5

Point = tuple[float, float]
Switch = tuple[float, float, float]
"""Middle in millimetres, y downwards, and degrees clockwise."""


def switches_of(keyboard: Keyboard) -> list[Switch]:
    return [(*(one * UNIT for one in centre_of(key)), key.turned) for key in keyboard.keys]


def corners(switch: Switch, side: float = 14.0) -> list[Point]:
    """The corners of a switch's square, y downwards; written without the model's geometry."""
    x, y, degrees = switch
    cosine, sine = cos(radians(degrees)), sin(radians(degrees))
    half = side / 2
    square = [(-half, -half), (half, -half), (half, half), (-half, half)]
    return [(x + a * cosine - b * sine, y + a * sine + b * cosine) for a, b in square]


def up(points: Iterable[Point]) -> list[Point]:
    return [(x, -y) for x, y in points]


def dxf_text(document) -> str:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def new_dxf(release: str = "R2010", unit: int = units.MM):
    document = ezdxf.new(release)
    if release != "R12":
        document.units = unit
    return document


def dxf_of(switches: Sequence[Switch], release: str = "R2010", scale: float = 1.0, **named) -> str:
    """Closed polylines, in the model space."""
    document = new_dxf(release, **named)
    space = document.modelspace()
    add = space.add_polyline2d if release == "R12" else space.add_lwpolyline
    for switch in switches:
        add([(x * scale, y * scale) for x, y in up(corners(switch))], close=True)
    return dxf_text(document)


def svg_of(body: str, size: str = 'width="400mm" height="200mm" viewBox="0 0 400 200"') -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{body}</svg>'


def polygons(switches: Sequence[Switch], scale: float = 1.0) -> str:
    return "".join(
        '<polygon points="{}"/>'.format(
            " ".join(f"{x * scale:.6f},{y * scale:.6f}" for x, y in corners(switch))
        )
        for switch in switches
    )


def read_back(
    folder: Path, drawing: str | bytes, name: str = "plate.dxf", *options: str
) -> Keyboard:
    """The keyboard of the file that `new` makes of a drawing."""
    path = folder / name
    path.write_bytes(drawing.encode() if isinstance(drawing, str) else drawing)
    made = folder / "made.keys"
    made.unlink(missing_ok=True)
    assert main(["new", str(folder / "made"), "--from", str(path), *options]) == 0
    design, findings = read_design(made)
    assert design, findings
    return design.keyboard


def error_mm(found: Iterable[Switch], wanted: Iterable[Switch]) -> float:
    """How far a middle or a corner of a switch is off at most, wherever the plate's corner is."""
    one, other = (_from_its_corner(switches) for switches in (list(found), list(wanted)))
    assert len(one) == len(other)
    worst = 0.0
    for x, y, turned in other:
        near = min(one, key=lambda switch: hypot(switch[0] - x, switch[1] - y))
        one.remove(near)
        turn = abs((near[2] - turned + 45) % 90 - 45)
        worst = max(worst, hypot(near[0] - x, near[1] - y), radians(turn) * CORNER_MM)
    return worst


def _from_its_corner(switches: list[Switch]) -> list[Switch]:
    """Moved so that the mean of the middles is at 0: a shift of the whole plate is none."""
    x = sum(one[0] for one in switches) / len(switches)
    y = sum(one[1] for one in switches) / len(switches)
    return [(one[0] - x, one[1] - y, one[2]) for one in switches]
