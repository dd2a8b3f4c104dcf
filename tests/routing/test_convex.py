"""Convex shapes, held to shapely's polygons."""

from math import cos, pi, sin
from random import Random

import pytest
from shapely import LineString, Polygon

from matrixgen.model.convex import Convex, convex, disc

SEEDS = range(60)


def some_shape(chance: Random) -> Convex:
    """A turned rectangle, a disc, or corners on an ellipse in any number."""
    kind = chance.randrange(3)
    if kind == 0:
        return disc((chance.uniform(-9, 9), chance.uniform(-9, 9)), chance.uniform(1, 8), 8)
    angles = sorted(chance.uniform(0, 2 * pi) for _ in range(chance.randint(3, 9)))
    if kind == 1:
        turn = chance.uniform(0, pi)
        angles = [turn, turn + 1, turn + pi, turn + pi + 1]
    across, down = chance.uniform(2, 9), chance.uniform(2, 9)
    return convex([(across * cos(angle), down * sin(angle)) for angle in angles])


@pytest.mark.parametrize("seed", SEEDS)
def test_a_shape_grows_by_its_sides(seed):
    chance = Random(seed)
    shape, by = some_shape(chance), chance.uniform(0, 3)
    reference = Polygon(shape.corners).buffer(by, join_style="mitre", mitre_limit=1000)
    grown = Polygon(shape.grown(by).corners)
    assert grown.symmetric_difference(reference).area < 1e-6 * reference.area
    assert Polygon(shape.grown(by).grown(-by).corners).equals_exact(Polygon(shape.corners), 1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_piece_crosses_what_it_has_a_point_in(seed):
    chance = Random(seed)
    shape = some_shape(chance)
    reference = Polygon(shape.corners)
    told = []
    for _ in range(200):
        ends = [(chance.uniform(-12, 12), chance.uniform(-12, 12)) for _ in range(2)]
        piece = LineString(ends)
        if reference.exterior.distance(piece) < 1e-9 and not reference.buffer(-1e-6).intersects(
            piece
        ):
            continue  # it only touches, which rounding decides
        assert shape.is_crossed(*ends) == reference.intersects(piece)
        told.append(shape.is_crossed(*ends))
    assert True in told and False in told
