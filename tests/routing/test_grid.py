"""The cells of a grid along a piece, against those that shapely says the piece comes near to."""

import random
from itertools import product

import pytest
from shapely.geometry import LineString, box

from matrixgen.routing.grid import MOST_CELLS, Grid, extent_of


@pytest.mark.parametrize("seed", range(20))
def test_a_piece_yields_each_cell_once_that_it_is_in_or_near_to(seed):
    chance = random.Random(seed)
    within = chance.choice([0.0, 1.0, 7.5])
    places = [chance.choice([0.0, 20.0, chance.uniform(-60, 60)]) for _ in range(4)]
    start, end = (places[0], places[1]), (places[2], places[3])
    found = list(Grid(10.0, 0.0).along(start, end, within))
    assert len(found) == len(set(found))
    piece = LineString([start, end])
    for column, row in product(range(-9, 9), repeat=2):
        left, top = column * 10.0, row * 10.0
        near = box(left - within, top - within, left + 10 + within, top + 10 + within)
        if piece.intersects(near.buffer(-1e-6)):
            assert (column, row) in found
        elif not piece.intersects(near.buffer(1e-6)):
            assert (column, row) not in found


def test_a_rectangle_lies_in_the_cells_from_corner_to_corner():
    assert Grid(10.0, 0.0).over(-1, 0, 9, 11) == [(-1, 0), (-1, 1), (0, 0), (0, 1)]


def test_a_plate_of_many_metres_has_no_more_cells_than_a_large_one():
    corners = [(0.0, 0.0), (40_000.0, 90_000.0)]
    grid = Grid(10.0, extent_of(corners))
    assert len(set(grid.along(*corners))) <= 2 * MOST_CELLS
    assert extent_of([]) == 0.0
