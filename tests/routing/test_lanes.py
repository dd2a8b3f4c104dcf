"""Wires that run the same way share no line, by shapely; where they have to, it is a bundle."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import count, islice, pairwise
from random import Random

import pytest
import shapely
from shapely import LineString, Point, Polygon, STRtree

from matrixgen.model import Keyboard
from matrixgen.routing import Back, back_of
from matrixgen.routing.places import placed
from tests.amounts import amount
from tests.examples.shipped import NAMES, example
from tests.generator.files import draft
from tests.routing.plates import random_keyboard
from tests.texts import examined

BOARDS = range(amount("MATRIXGEN_LANES", suite=3, long=40))
APART, SAME_WAY, FAN = 0.97, 0.17, 7.05
"""Millimetres between two wires; the sine of ten degrees; round their joint, two hops of one wire
may meet as they come."""

PIECES = 200_000
"""How many pieces are thought of for a drawn plate: fewer than for a sheet, to save time."""

SMALL = re.compile(r":1x0\.25|:0\.25|:2x2| down -0\.2?5")
"""What makes keys of a drawn file smaller than a switch, or reach into the next line."""

BENCH_UNITS = 100
"""Key units of a bench, about two metres."""


def sound_drafts(*, overlapping: bool = True) -> Iterator[Keyboard]:
    """Yield the keyboards of drawn files with wires to lay beside each other, on one bench.

    Their switches may be `overlapping`, as long as it is only on paper; otherwise keys are as large
    as a switch at least.
    """
    for seed in count():
        text = draft(seed, sound=True, most_keys=40).text
        found = examined(text if overlapping else SMALL.sub("", text))
        assert found.design is not None
        keyboard = found.design.keyboard
        across, down = (
            max(places, default=0) - min(places, default=0)
            for places in ([key.x for key in keyboard.keys], [key.y for key in keyboard.keys])
        )
        if not overlapping and any_overlap(keyboard):
            continue
        if not found.errors and len(keyboard.keys) > 2 and max(across, down) < BENCH_UNITS:
            yield keyboard


def any_overlap(keyboard: Keyboard) -> bool:
    """Whether two switches would be in the same place."""
    bodies = [Polygon(one.body) for one in placed(keyboard, "row")]
    tree = STRtree(bodies)
    return tree.query(bodies, predicate="intersects").shape[1] > len(bodies)


def pieces(back: Back) -> list[tuple[int, int, LineString]]:
    return [
        (run, hop, LineString([one, other]))
        for run, wire in enumerate(back.runs)
        for hop, made in enumerate(wire.hops)
        for one, other in pairwise(made.drawn)
        if one != other
    ]


def hidden_mm(back: Back) -> float:
    """Return how much wire lies on or close beside other wire that runs the same way.

    What is drawn as a bundle of both does not count.
    """
    found = pieces(back)
    strips = [line.buffer(APART, cap_style="flat") for *_, line in found]
    tree = STRtree(strips)
    return sum(
        (close - excepted(back, found[number], found[other])).length
        for number, (run, hop, line) in enumerate(found)
        for other in tree.query(line)
        if other > number and found[other][:2] != (run, hop)
        if turn(line, found[other][2]) < SAME_WAY
        if (close := line.intersection(strips[other])).length > 0
    )


def turn(one: LineString, other: LineString) -> float:
    """Return the sine of the angle between two pieces."""
    (x, y), (u, v) = one.coords
    (p, q), (r, s) = other.coords
    return abs((u - x) * (s - q) - (v - y) * (r - p)) / one.length / other.length


def excepted(back: Back, one: tuple, other: tuple) -> shapely.Geometry:
    """Return where two pieces may lie on each other: round a joint of both, and in a bundle."""
    shapes = [
        LineString(stretch).buffer(1.1)
        for bundle in back.bundles
        if {one[0], other[0]} <= set(bundle.wires)
        for stretch in bundle.stretches
    ]
    if one[0] == other[0]:
        hops = [back.runs[wire].hops[hop] for wire, hop, _ in (one, other)]
        ends = [{hop.start.at, hop.end.at} for hop in hops]
        shapes += [Point(joint).buffer(FAN) for joint in ends[0] & ends[1]]
    return shapely.union_all(shapes)


@pytest.mark.parametrize("name", NAMES)
def test_on_every_example_each_wire_has_a_line_of_its_own(name):
    back = back_of(example(name).keyboard, apart=True)
    assert back.bundles == ()
    assert hidden_mm(back) < 0.01


@pytest.mark.parametrize("seed", range(4))
def test_round_obstacles_each_wire_has_a_line_of_its_own(seed):
    back = back_of(random_keyboard(Random(seed)), apart=True)
    assert back.bundles == ()
    assert hidden_mm(back) < 0.01


@pytest.fixture(scope="module")
def drafts() -> list[Keyboard]:
    return list(islice(sound_drafts(), len(BOARDS)))


@pytest.mark.parametrize("number", BOARDS)
def test_on_drawn_plates_what_shares_a_line_is_a_bundle(drafts, number):
    """They have switches that overlap, and some so close that no wire fits in between."""
    assert hidden_mm(back_of(drafts[number], PIECES, apart=True)) < 0.01
