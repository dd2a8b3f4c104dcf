"""Screws and areas on the cut-outs of turned keys: the verdicts of `shapely` on the same plates."""

from __future__ import annotations

from random import Random

import pytest
from shapely import affinity
from shapely.geometry import Point, Polygon, box

from matrixgen.model import Key, Plate
from matrixgen.plate.stabilisers import stabilisers_of
from matrixgen.rules.context import Context
from matrixgen.rules.plate import hole_under_key, keep_clear_over_key, screw_head_on_housing
from tests.plate.plates import in_field
from tests.texts import keyboard_in

UNIT = 19.05
CUT_OUT = 14.5, 12
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
    lines.append(f"cut-out {CUT_OUT[0]} x {CUT_OUT[1]} mm")
    return "plate\n" + "".join(f"  {line}\n" for line in lines)


def outline_of(key: Key) -> Polygon:
    """A cut-out as the drawing has it: in the middle of the key, turned about the cluster."""
    x, y = key.x + key.width / 2, key.y + key.height / 2
    wide, high = (one / UNIT / 2 for one in CUT_OUT)
    upright = box(x - wide, y - high, x + wide, y + high)
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
    keyboard = keyboard_in(random_plate(Random(seed)))
    context = Context(keyboard)
    for rule, reference in (
        (hole_under_key, holes_on_keys(keyboard.plate)),
        (keep_clear_over_key, areas_on_keys(keyboard.plate)),
    ):
        lines = {one.span.line for one in rule.check(context)}
        clear = {line: hit for line, hit in reference.items() if hit is not None}
        assert {line: line in lines for line in clear} == clear
        assert len(clear) > 35 and {True, False} == set(clear.values())


def housings_of(plate: Plate) -> list[Polygon]:
    """What stands on the plate, in millimetres: squares of 15.6, and stabilisers' 7 by 15."""
    found = [in_field(key, 0, 0, 15.6, 15.6) for key in plate.keys]
    for one in stabilisers_of(plate.keys):
        for side in (-1, 1):
            at = (side * one.offset_mm, 0.9, 7, 15)
            if one.is_upright:
                at = (0.9, -side * one.offset_mm, 15, 7)
            found.append(in_field(one.key, *at))
    return found


@pytest.mark.parametrize("seed", range(12))
def test_a_head_on_a_housing_is_what_shapely_finds(seed):
    chance = Random(seed)
    lines = [
        line for line in random_plate(chance).splitlines() if " at " not in line or "clu" in line
    ]
    sizes = {"M2": 2.2, "M2.5": 2.7, "M3": 3.0}
    heads = {}
    for _ in range(150):
        size = chance.choice(list(sizes))
        lines.append(
            f"  hole at {chance.uniform(-1, 5):.4f}, {chance.uniform(-1, 4):.4f} for {size}"
        )
        heads[len(lines)] = sizes[size]
    keyboard = keyboard_in("\n".join(lines) + "\n")
    plate = keyboard.plate
    cut, stand = [in_field(key, 0, 0, *CUT_OUT) for key in plate.keys], housings_of(plate)
    lines_found = {one.span.line for one in screw_head_on_housing.check(Context(keyboard))}
    verdicts = []
    for hole in plate.holes:
        at, head = Point(hole.x * UNIT, hole.y * UNIT), heads[hole.span.line]
        in_cut, on_one = (min(map(at.distance, some)) - head for some in (cut, stand))
        if min(abs(in_cut), abs(on_one)) > 2e-4:
            verdicts.append(on_one < 0 <= in_cut)
            assert (hole.span.line in lines_found) == verdicts[-1]
    assert sum(verdicts) > 2 and len(verdicts) > 140


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
    context = Context(keyboard_in(text))
    found = [*hole_under_key.check(context), *keep_clear_over_key.check(context)]
    assert [one.span.line for one in found] == [6, 7, 8]
