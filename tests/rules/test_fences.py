"""No way is looked for unless something may be in it: held against looking for every way."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from matrixgen.jobs.examine import examine_text
from matrixgen.routing import back_of
from matrixgen.rules.plate.fences import may_fence
from matrixgen.rules.wiring.wire_without_route import _is_over_a_key
from tests.texts import keyboard_in

KEYS = "plate\n  line A ~2  B ~0.5 C\n"
WIRING = "wiring\n  row r0 A B C\n  column c0 A\n  column c1 B\n  column c2 C\n"
WALLS = ("2.6, -0.5, 0.2, 2", "4.3, -0.5, 0.2, 2", "2.6, -0.5, 1.9, 0.2", "2.6, 1.3, 1.9, 0.2")
"""Four areas round B that meet at their corners."""
RING = [(2.6 + n * 0.213, y) for n in range(9) for y in (-0.4, 1.304)]
RING += [(x, -0.4 + n * 0.213) for n in range(1, 8) for x in (2.6, 4.304)]
LIGHTS = "".join(f"  light l{n} at {x:.3f}, {y:.3f}\n" for n, (x, y) in enumerate(RING))
"""Lights round B that leave no gap."""


def walled(chance: Random) -> str:
    """A plate with some of the walls, some moved a little, some made of screws."""
    lines, kept = [], chance.choice((0.3, 0.6, 1.0))
    for wall in WALLS:
        x, y, width, height = map(float, wall.split(", "))
        x, y = x + chance.choice((0, 0, 0.01, -0.1)), y + chance.choice((0, 0, 0.015))
        if chance.random() < kept:
            lines.append(f"  keep clear {x}, {y}, {width}, {height}\n")
        if chance.random() < 0.3:
            lines.append(f"  hole at {x + chance.choice((0, width))}, {y}\n")
    return KEYS + "".join(lines) + WIRING


def test_whatever_has_no_way_may_be_fenced_in():
    stuck = open_plates = 0
    for seed in range(60):
        keyboard = keyboard_in(walled(Random(seed)))
        plate = keyboard.plate
        if _is_over_a_key(plate):
            continue
        hops = [hop for run in back_of(keyboard).runs for hop in run.hops]
        is_stuck = any(hop.route is None for hop in hops)
        assert may_fence(plate) or not is_stuck, seed
        stuck += is_stuck
        open_plates += not may_fence(plate)
    assert stuck > 5 and open_plates > 5


@pytest.mark.parametrize(
    ("kept_clear", "may"),
    [
        ("  hole at 3, -1\n  hole at 5, -1\n", False),
        ("  keep clear 2.6, -0.5, 0.2, 2\n  keep clear 2.6, -0.5, 1.9, 0.2\n", False),
        ("".join(f"  keep clear {wall}\n" for wall in WALLS[1:]), True),
        (LIGHTS, True),
    ],
    ids=["screws apart", "two areas that meet", "three that meet", "lights all round"],
)
def test_a_check_looks_for_ways_only_where_there_may_be_a_fence(kept_clear, may, monkeypatch):
    asked = []
    monkeypatch.setattr(
        "matrixgen.rules.wiring.wire_without_route.back_of",
        lambda keyboard, most: asked.append(keyboard) or back_of(keyboard, most),
    )
    examine_text("pad.keys", KEYS + kept_clear + WIRING, Path())
    assert bool(asked) == may
