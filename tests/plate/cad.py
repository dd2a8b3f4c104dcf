"""Each example's drawing through Debian's CAD program: `python -m tests.plate.cad`.

LibreCAD opens each DXF and prints it to PDF; what it printed is read back by colours, which are the
layers', joined to closed figures and compared with shapely's. `tests/run --long cad` installs it.

It prints to A3 lying, whatever paper is asked for, and in steps of 1200 to an inch: 0.021 mm. It
takes the paper for whole millimetres, although its PDF is in whole points: it prints a quarter of a
thousandth too large, in both directions by the mean of what it takes across and down.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from itertools import pairwise
from math import dist
from pathlib import Path

import pdfplumber
from shapely import affinity
from shapely.geometry import Polygon

from matrixgen.emit.plate_drawing.dxf import COLOURS
from matrixgen.jobs.plate import PlateOptions, plate_file
from matrixgen.model import Plate
from tests.plate.plates import NAMES, holes, keyboard_of, outline, switches
from tests.plate.test_solids import through

CAD = "librecad"
A3_MM, EDGE_MM = (420.0, 297.0), 30.0
NEAR_MM = 0.05
"""How far a figure's place, its box, and the side of a square of its area may be off."""

JOINED_MM = 0.06
"""How far two pieces' ends may be from each other that belong together."""

PAINT = {1: (1, 0, 0), 3: (0, 1, 0), 5: (0, 0, 1), 7: (0, 0, 0)}
"""What the CAD program prints a colour of the index in."""

Piece = list[tuple[float, float]]


def printed(drawing: Path, scale: float) -> Path:
    """Print a drawing to a PDF beside it."""
    words = (CAD, "dxf2pdf", "-c", "-s", f"{scale:g}", "-f", "0,0,0,0", str(drawing))
    folder = str(drawing.parent)
    setting = {"QT_QPA_PLATFORM": "offscreen", "HOME": folder, "XDG_RUNTIME_DIR": folder}
    env = {**os.environ, **setting}
    subprocess.run(words, check=True, capture_output=True, timeout=120, cwd=folder, env=env)
    return drawing.with_suffix(".pdf")


def pieces(pdf: Path, scale: float) -> Iterator[tuple[tuple[int, ...], Piece]]:
    """Yield each stroke of a PDF, its colour and its places in millimetres of the plate."""
    with pdfplumber.open(pdf) as opened:
        (page,) = opened.pages
        taken = [float(pt) / mm for pt, mm in zip((page.width, page.height), A3_MM, strict=True)]
        factor = sum(taken) / 2 * scale
        for one in (*page.lines, *page.curves, *page.rects):
            way = list(_flattened(one["path"]))
            colour = tuple(map(round, one["stroking_color"]))
            yield colour, [(x / factor, y / factor) for x, y in way]


def _flattened(path) -> Iterator[tuple[float, float]]:
    """Yield the places of a path; a curve of the third degree is cut in 32."""
    last = first = (0.0, 0.0)
    for step, *points in path:
        if step == "c":
            yield from (_on_curve((last, *points), number / 32) for number in range(1, 33))
        elif points:
            yield points[0]
        last = points[-1] if points else first
        first = last if step == "m" else first


def _on_curve(points, part: float) -> tuple[float, float]:
    while len(points) > 1:
        points = [(x + (u - x) * part, y + (v - y) * part) for (x, y), (u, v) in pairwise(points)]
    return points[0]


def closed(strokes: list[Piece]) -> list[Polygon]:
    """Return the figures that strokes are joined to; fail on one that is not closed."""
    left, found = [stroke for stroke in strokes if len(stroke) > 1], []
    while left:
        ring = left.pop(0)
        while dist(ring[0], ring[-1]) > JOINED_MM:
            near = min(left, key=lambda one: min(dist(ring[-1], one[0]), dist(ring[-1], one[-1])))
            left.remove(near)
            if dist(ring[-1], near[0]) > dist(ring[-1], near[-1]):
                near = near[::-1]
            if dist(ring[-1], near[0]) > JOINED_MM:
                raise ValueError(f"no stroke goes on at {ring[-1]}")
            ring = ring + near[1:]
        found.append(Polygon(ring))
    return found


def truth(plate: Plate) -> dict[str, list[Polygon]]:
    """Return what belongs on each layer."""
    _, stabilisers = through(plate)
    return {
        "OUTLINE": [outline(plate)],
        "SWITCHES": switches(plate),
        "STABILISERS": stabilisers,
        "HOLES": holes(plate),
    }


def apart(one: Polygon, other: Polygon) -> float:
    """Return by how much two figures differ: the sides of their boxes, and of equal squares."""
    sides = (abs(a - b) for a, b in zip(one.bounds, other.bounds, strict=True))
    return max(*sides, abs(one.area**0.5 - other.area**0.5))


def wrong_in(content: bytes, plate: Plate, folder: Path) -> tuple[list[str], float]:
    """Return what is wrong with a drawing as the CAD program has it, and how far it is off."""
    drawing = folder / "plate.dxf"
    drawing.write_bytes(content)
    right = truth(plate)
    left, top, width, height = _box(right["OUTLINE"][0])
    sizes = zip(A3_MM, (width, height), strict=True)
    scale = min(1.0, *((paper - EDGE_MM) / at for paper, at in sizes))
    strokes = list(pieces(printed(drawing, scale), scale))
    wrong, most, moved = [], 0.0, None
    for layer, figures in right.items():
        paint = PAINT[COLOURS[layer]]
        found = closed([way for colour, way in strokes if colour == paint])
        if len(found) != len(figures):
            wrong.append(f"{len(found)} figures instead of {len(figures)} on {layer}")
            continue
        if moved is None:  # the outline says where the plate lies on the paper
            x, y, *_ = _box(found[0])
            moved = left - x, top - y
        placed = [affinity.translate(one, *moved) for one in found]
        off = max((min(apart(one, it) for it in placed) for one in figures), default=0.0)
        most = max(most, off)
        if off > NEAR_MM:
            wrong.append(f"{layer} {off:.3f} mm off")
    return wrong, most


def _box(shape: Polygon) -> tuple[float, float, float, float]:
    left, top, right, bottom = shape.bounds
    return left, top, right - left, bottom - top


def main() -> int:
    bad, most, files = 0, 0.0, 0
    with tempfile.TemporaryDirectory() as name:
        for example in NAMES:
            keyboard = keyboard_of(example)
            for is_r12 in (False, True):
                content = plate_file(keyboard, ".dxf", PlateOptions(is_r12=is_r12))
                wrong, off = wrong_in(content, keyboard.plate, Path(name))
                bad, most, files = bad + bool(wrong), max(most, off), files + 1
                release = " (R12)" if is_r12 else ""
                print(
                    f"{example}{release}: {', '.join(wrong) or f'within {off:.3f} mm'}", flush=True
                )
    print(f"the CAD program: {files} drawings, {bad} complaints, at most {most:.3f} mm off")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
