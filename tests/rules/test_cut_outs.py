"""Screws and areas on the cut-outs of turned keys: the verdicts of `shapely` on the same plates."""

from __future__ import annotations

from random import Random

import pytest
from shapely import affinity
from shapely.geometry import Point, Polygon, box

from matrixgen.model import Key, Plate
from matrixgen.rules.context import Context
from matrixgen.rules.plate import hole_under_key, keep_clear_over_key
from matrixgen.source import read_design

UNIT = 19.05
TIE = 1e-5
"""Key units, and squares of them, by which a verdict has to be clear to be compared."""


def random_plate(chance: Random) -> str:
    """Two lines, a cluster at any angle and its mirror image, and many holes and areas about."""
    angle, x, y = chance.uniform(-180, 180), chance.uniform(3, 5), chance.uniform(-1, 3)
    sizes = [chance.choice(["", ":1.5", ":2.25", ":1x2"]) for _ in range(4)]
    lines = [
        f"line A{sizes[0]} ~0.5 B C{sizes[1]}",
        f"line in 0.25 D ~{chance.uniform(0, 1):.3f} E",
        f"cluster left at {x:.4f}, {y:.4f} turned {angle:.3f}",
        f"line F{sizes[2]} G{sizes[3]}",
        "line in -0.3 down 0.2 H I",
        f"cluster right mirrors left about {chance.uniform(6, 7):.3f}",
        "line J K",
        "line L M",
    ]
    for _ in range(40):
        place = f"{chance.uniform(-1, 13):.4f}, {chance.uniform(-2, 6):.4f}"
        lines.append(f"hole at {place}")
        size = f"{chance.uniform(0.05, 2):.3f}, {chance.uniform(0.05, 1.5):.3f}"
        lines.append(f"keep clear {place}, {size}")
    return "plate\n" + "".join(f"  {line}\n" for line in lines)


def outline_of(key: Key) -> Polygon:
    """A cut-out as the drawing has it: in the middle of the key, turned about the cluster."""
    x, y, half = key.x + key.width / 2, key.y + key.height / 2, 14 / UNIT / 2
    upright = box(x - half, y - half, x + half, y + half)
    return affinity.rotate(upright, key.turned, origin=(key.pivot_x, key.pivot_y))


def holes_on_keys(plate: Plate) -> dict[int, bool | None]:
    """Whether the screw on each line of the file meets a cut-out; None for what is nearly so."""
    outlines = [outline_of(key) for key in plate.keys]
    found: dict[int, bool | None] = {}
    for hole in plate.holes:
        away = min(Point(hole.x, hole.y).distance(one) for one in outlines) - 3 / UNIT
        found[hole.span.line] = None if abs(away) < TIE else away < 0
    return found


def areas_on_keys(plate: Plate) -> dict[int, bool | None]:
    outlines = [outline_of(key) for key in plate.keys]
    found: dict[int, bool | None] = {}
    for area in plate.keep_clear:
        there = box(area.x, area.y, area.x + area.width, area.y + area.height)
        shared = max(there.intersection(one).area for one in outlines)
        found[area.span.line] = None if 0 < shared < TIE else shared > 0
    return found


@pytest.mark.parametrize("seed", range(20))
def test_the_rules_find_what_shapely_finds(seed):
    design, found = read_design("plate.keys", random_plate(Random(seed)))
    assert design is not None, found
    context = Context(design.keyboard)
    for rule, reference in (
        (hole_under_key, holes_on_keys(design.keyboard.plate)),
        (keep_clear_over_key, areas_on_keys(design.keyboard.plate)),
    ):
        lines = {one.span.line for one in rule.check(context)}
        clear = {line: hit for line, hit in reference.items() if hit is not None}
        assert {line: line in lines for line in clear} == clear
        assert len(clear) > 35 and {True, False} == set(clear.values())


def test_what_touches_is_fine_and_a_hair_more_is_not():
    """A square's side lies 7 mm from the middle of its key, and a screw takes 3 mm more."""
    side, corner = 7 / UNIT, 7 / UNIT + 3 / UNIT / 2**0.5
    touching = [("hole", f"at {0.5 + side + 3 / UNIT - 5e-7:.7f}, 0.5")]
    touching += [("hole", f"at {0.5 + corner - 5e-7:.7f}, {0.5 + corner - 5e-7:.7f}")]
    touching += [("keep clear", f"{0.5 + side - 5e-7:.7f}, 0, 1, 1")]
    nearer = [("hole", f"at {0.5 + side + 3 / UNIT - 2e-6:.7f}, 0.5")]
    nearer += [("hole", f"at {0.5 + corner - 3e-6:.7f}, {0.5 + corner - 3e-6:.7f}")]
    nearer += [("keep clear", f"{0.5 + side - 2e-6:.7f}, 0, 1, 1")]
    text = "plate\n  line A\n" + "".join(f"  {' '.join(one)}\n" for one in (*touching, *nearer))
    design, _ = read_design("plate.keys", text)
    assert design is not None
    context = Context(design.keyboard)
    found = [*hole_under_key.check(context), *keep_clear_over_key.check(context)]
    assert [one.span.line for one in found] == [6, 7, 8]
