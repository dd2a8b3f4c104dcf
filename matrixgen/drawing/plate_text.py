"""The block `plate` of a drawing: its rows, its clusters and its holes, as text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count

from matrixgen.drawing.decimals import near, written
from matrixgen.drawing.figures import LED_MM, Figures
from matrixgen.drawing.groups import Group, groups_of
from matrixgen.drawing.rows import KeyRow, rows_of
from matrixgen.model.geometry import Point, bounds_of, turned_about
from matrixgen.model.plate import SCREWS, USUAL_SCREW
from matrixgen.model.switch import UNIT_MM

CORNER_TOLERANCE = 0.004 / UNIT_MM
"""Key units by which the corner of a cluster is rounded; its lines make up for that."""

HOLE_TOLERANCE = 0.012 / UNIT_MM

WIDEST = 20.0
"""Key units of the widest gap that a word may say (`source/limits.py`)."""


def plate_of_figures(figures: Figures, *, may_widen: bool, most_holes: int) -> list[str]:
    """Return the lines of the block for at least one switch; lengths are in key units.

    Its upper left corner is that of the upright keys. Keys are `K1` and so on, in the file's order.
    """
    upright, clusters = groups_of(figures.switches)
    x, y = corner_of(figures)
    numbers = count(1)
    text = ["plate"]
    middles = [(one[0] - x, one[1] - y) for one in upright.middles]
    text += (_line(row, numbers) for row in rows_of(middles, may_widen=may_widen))
    for number, cluster in enumerate(clusters, start=1):
        text += _cluster(cluster, f"tilted-{number}", (x, y), numbers)
    for hole in figures.holes[:most_holes]:
        place = _numbers(hole.at[0] / UNIT_MM - x, hole.at[1] / UNIT_MM - y, HOLE_TOLERANCE)
        screw = f"hole at {place}{_for_screw(hole.diameter)}"
        text.append(f"  {_either(place, screw) if hole.may_be_led else screw}")
    return text


def _either(place: str, screw: str) -> str:
    """Return a comment for a hole that may be for an LED or for a screw."""
    return f"# A hole of {LED_MM:g} mm: `light NAME at {place}` for an LED, `{screw}` for a screw."


def _for_screw(diameter: float) -> str:
    """Return for which screw a hole is, by the nearest medium fit; nothing for the usual one."""
    screw = min(SCREWS, key=lambda one: abs(one.hole_mm - diameter))
    return "" if screw == USUAL_SCREW else f" for {screw.name}"


def corner_of(figures: Figures) -> Point:
    """Return where the drawing has the plate's corner, in key units."""
    upright, clusters = groups_of(figures.switches)
    return _corner(upright.middles or [one for each in clusters for one in each.middles])


def _corner(middles: Iterable[Point]) -> Point:
    """Return the upper left corner of the keys that have these middles."""
    left, top, _, _ = bounds_of(middles)
    return left - 0.5, top - 0.5


def _cluster(cluster: Group, name: str, plate: Point, numbers: Iterator[int]) -> Iterator[str]:
    """Yield a cluster's statement and its lines, which begin at its rounded corner."""
    middles = cluster.in_its_frame()
    frame = _corner(middles)
    exact = turned_about(frame, (0.0, 0.0), cluster.turned)
    corner = [near(one - whole, CORNER_TOLERANCE) for one, whole in zip(exact, plate, strict=True)]
    where = ", ".join(map(written, corner))
    yield f"  cluster {name} at {where} turned {written(cluster.turned)}"
    placed = (corner[0] + plate[0], corner[1] + plate[1])
    left, top = turned_about(placed, (0.0, 0.0), -cluster.turned)
    local = [(x - left, y - top) for x, y in middles]
    for row in rows_of(local, may_widen=False):
        yield _line(row, numbers)


def _line(row: KeyRow, numbers: Iterator[int]) -> str:
    """Return a `line` of the plate."""
    words = ["  line"]
    if row.drop:
        words += ["down", written(row.drop)]
    if row.indent:
        words += ["in", written(row.indent)]
    for key in row.keys:
        words += (f"~{written(gap)}" for gap in _gaps(key.gap))
        words.append(f"K{next(numbers)}{_size(key.width, key.height)}")
    return " ".join(words)


def _gaps(gap: float) -> Iterator[float]:
    """Yield the parts of a gap, of which each is short enough for one word."""
    while gap > WIDEST:
        yield WIDEST
        gap -= WIDEST
    if gap:
        yield gap


def _size(width: float, height: float) -> str:
    if height != 1:
        return f":{written(width)}x{written(height)}"
    return f":{written(width)}" if width != 1 else ""


def _numbers(x: float, y: float, tolerance: float) -> str:
    return ", ".join(written(near(one, tolerance)) for one in (x, y))
