"""Pictures in parts for paper: together they show all, and neighbours have the same crosses."""

import random
from itertools import product

import pytest
from shapely import union_all
from shapely.geometry import Point, box

from matrixgen.emit.sheet.frame import PAPER_HIGH_MM, PAPER_MM, Box
from matrixgen.emit.sheet.paper import OVERLAP_MM, TILE_HIGH_MM, TILE_WIDE_MM, tiles_of


def shape(one):
    return box(one.x, one.y, one.x + one.width, one.y + one.height)


def test_a_picture_that_has_room_on_a_sheet_is_not_cut():
    assert tiles_of(Box(x=0, y=0, width=PAPER_MM, height=PAPER_HIGH_MM)) == ()


@pytest.mark.parametrize("seed", range(30))
def test_tiles_show_all_of_a_picture_and_share_their_crosses(seed):
    chance = random.Random(seed)
    width, height = chance.choice([20, 256, 480.5, 2000]), chance.choice([20, 141, 330.25, 900])
    picture = Box(x=chance.uniform(-500, 0), y=3.7, width=width, height=height)
    if picture.scale == 1:
        return
    tiles = tiles_of(picture)
    assert union_all([shape(one.box) for one in tiles]).buffer(1e-6).covers(shape(picture))
    for one in tiles:
        assert one.box.width <= TILE_WIDE_MM + 1 and one.box.height <= TILE_HIGH_MM + 1
        assert len(set(one.crosses)) == 4
        assert all(shape(one.box).contains(Point(*at)) for at in one.crosses)
    for one, other in product(tiles, repeat=2):
        common = shape(one.box).intersection(shape(other.box))
        if one is not other and common.area > OVERLAP_MM**2 + 1:
            places = [
                {(round(x, 6), round(y, 6)) for x, y in each.crosses} for each in (one, other)
            ]
            assert len(places[0] & places[1]) == 2


def test_each_tile_says_where_it_is():
    tiles = tiles_of(Box(x=0, y=0, width=400, height=300))
    assert [one.words.split(".")[0] for one in tiles] == [
        "Sheet 1 of 4: sheet 2 at its right, sheet 3 at its bottom",
        "Sheet 2 of 4: sheet 1 at its left, sheet 4 at its bottom",
        "Sheet 3 of 4: sheet 4 at its right, sheet 1 at its top",
        "Sheet 4 of 4: sheet 3 at its left, sheet 2 at its top",
    ]
