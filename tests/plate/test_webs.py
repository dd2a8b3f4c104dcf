"""How much of the plate is left between two openings, against shapely's distances."""

from __future__ import annotations

import random
from itertools import combinations

import pytest
from shapely.geometry import Point, Polygon

from matrixgen.plate.openings import Bar, Circle
from matrixgen.plate.webs import near_edge, thin_webs, web_mm


def opening(chance):
    middle = chance.uniform(-40, 40), chance.uniform(-40, 40)
    if chance.random() < 0.3:
        return Circle(kind="hole", number=0, middle=middle, diameter=chance.choice([2.4, 3.4]))
    turned = chance.choice([0, 0, 90, chance.uniform(-180, 180)])
    width, height = chance.choice([(14, 14), (7, 15)])
    return Bar(kind="switch", key="A", middle=middle, width=width, height=height, turned=turned)


def shape(one):
    if isinstance(one, Circle):
        return Point(one.middle).buffer(one.diameter / 2, quad_segs=64)
    return Polygon(one.corners)


@pytest.mark.parametrize("seed", range(12))
def test_each_thin_web_is_found_and_as_wide_as_it_is(seed):
    chance = random.Random(seed)
    openings = [opening(chance) for _ in range(30)]
    truth = {
        frozenset(map(id, pair)): shape(pair[0]).distance(shape(pair[1]))
        for pair in combinations(openings, 2)
    }
    for one, other in combinations(openings, 2):
        assert web_mm(one, other) == pytest.approx(truth[frozenset((id(one), id(other)))], abs=1e-3)
    found = {frozenset(map(id, web.openings)) for web in thin_webs(openings, 3.0)}
    assert found == {pair for pair, width in truth.items() if width < 3.0}


@pytest.mark.parametrize("seed", range(6))
def test_what_is_near_the_edge_is_found_and_as_near_as_it_is(seed):
    chance = random.Random(seed)
    openings = [opening(chance) for _ in range(20)]
    edge = Polygon([(-50, -45), (48, -50), (50, 40), (-40, 50)])
    found = {id(one): left for one, left in near_edge(openings, edge.exterior.coords[:-1], 6.0)}
    for one in openings:
        inside = edge.contains(shape(one))
        left = shape(one).distance(edge.exterior) if inside else -1.0
        if left >= 6.0:
            assert id(one) not in found
        elif inside:
            assert found[id(one)] == pytest.approx(left, abs=0.01)
        else:
            assert found[id(one)] <= 0
