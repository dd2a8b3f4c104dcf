"""How much of the plate is left between two openings, against shapely's distances."""

from __future__ import annotations

import math
import random
from itertools import combinations, pairwise

import pytest
from shapely.geometry import Point, Polygon

from matrixgen.model.rings import area_of, is_inside, meeting
from matrixgen.plate.edge import near_edge
from matrixgen.plate.openings import Bar, Circle
from matrixgen.plate.outline import flat, rounded
from matrixgen.plate.webs import thin_webs, web_mm


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


SHAPES = {
    "four sides": [(-50, -45), (48, -50), (50, 40), (-40, 50)],
    "an elbow": [(-50, -50), (50, -50), (50, 0), (5, 0), (5, 50), (-50, 50)],
    "a notch": [(-50, -50), (-2, -50), (0, 20), (2, -50), (50, -50), (50, 50), (-50, 50)],
    "a slit": [(-50, -50), (50, -50), (50, -1), (-45, 0), (50, 1), (50, 50), (-50, 50)],
}


@pytest.mark.parametrize("radius", [0, 3, 40])
@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("seed", range(6))
def test_what_is_near_the_edge_is_found_and_as_near_as_it_is(seed, name, radius):
    chance = random.Random(seed)
    openings = [opening(chance) for _ in range(20)]
    path = rounded(SHAPES[name], radius)
    edge = Polygon(flat(path))
    assert edge.is_valid
    found = {id(one): left for one, left in near_edge(openings, path, 6.0)}
    for one in openings:
        left, inside = shape(one).distance(edge.exterior), edge.contains(shape(one))
        if inside and left >= 6.0:
            assert id(one) not in found
        elif inside:
            assert found[id(one)] == pytest.approx(left, abs=0.01)
        elif left > 0.01:
            assert found[id(one)] < 0
        else:
            assert found[id(one)] == pytest.approx(0, abs=0.01)


def star(chance, corners):
    turns = [(n + chance.uniform(-0.45, 0.45)) * math.tau / corners for n in range(corners)]
    far = [chance.uniform(5, 60) for _ in turns]
    return [(r * math.cos(a), r * math.sin(a)) for r, a in zip(far, turns, strict=True)]


@pytest.mark.parametrize("seed", range(60))
def test_arcs_of_any_radius_never_cross_the_outline(seed):
    """They are smaller where another corner is in the way."""
    chance = random.Random(seed)
    ring = star(chance, chance.choice([3, 5, 9, 30]))
    for radius in (0, 0.5, 2, 10, 100):
        path = rounded(ring, radius)
        around = Polygon(flat(path))
        assert around.is_valid and around.area > 0


@pytest.mark.parametrize("seed", range(60))
def test_it_is_known_whether_a_ring_crosses_itself(seed):
    chance = random.Random(seed)
    sides = chance.choice([3, 4, 5, 8])
    ring = [(chance.uniform(-9, 9), chance.uniform(-9, 9)) for _ in range(sides)]
    assert (meeting(ring, 1e-6) is None) == Polygon(ring).is_valid
    assert meeting(star(chance, 40), 1e-6) is None
    assert abs(area_of(ring)) == pytest.approx(signed(ring))
    for _ in range(20):
        at = chance.uniform(-9, 9), chance.uniform(-9, 9)
        if Polygon(ring).is_valid:
            assert is_inside(at, ring) == Polygon(ring).contains(Point(at))


def signed(ring):
    """Return the area of a ring, by triangles from its first corner."""
    first = ring[0]
    parts = [
        (a[0] - first[0]) * (b[1] - first[1]) - (a[1] - first[1]) * (b[0] - first[0])
        for a, b in pairwise(ring[1:])
    ]
    return abs(sum(parts)) / 2
