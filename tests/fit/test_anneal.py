"""Walks from layout to layout: always a matrix, and from a bad one to a much better one."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.fit.anneal import _Annealing, anneal
from matrixgen.fit.beginnings import beginnings
from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan
from tests.fit.plates import is_matrix, plate, scattered


def shuffled(seed: int, rows: int, columns: int) -> Layout:
    """A full block of keys on rows and columns drawn by lot."""
    plan = Plan(tuple(plate(*[(0.25 * n, columns) for n in range(rows)])))
    keys = Random(seed).sample(range(rows * columns), rows * columns)
    across = tuple(tuple(keys[n * columns : (n + 1) * columns]) for n in range(rows))
    return Layout(plan, across, tuple(zip(*across, strict=True)))


@pytest.mark.parametrize("seed", range(5))
def test_a_layout_drawn_by_lot_loses_two_thirds_of_its_wire(seed):
    start = shuffled(seed, 5, 9)
    end = anneal(start, 20_000, 12.0, Random(seed))
    assert is_matrix(end, 45, 5, 9)
    assert end.run_mm < start.run_mm / 3


@pytest.mark.parametrize("steps", [0, 1, 50])
def test_a_walk_never_ends_at_a_worse_place(steps):
    start = shuffled(1, 4, 4)
    assert anneal(start, steps, 12.0, Random(2)).cost <= start.cost


@pytest.mark.parametrize("seed", range(20))
def test_what_a_walk_believes_to_have_gained_is_what_its_layout_has(seed):
    plan = Plan(tuple(scattered(seed, 17)))
    start = beginnings(plan, 4, 5, [])[0]
    walk = _Annealing(start, Random(seed))
    for heat in (30.0, 8.0, 0.5):
        walk.go(500, heat)
        now = walk.layout()
        assert is_matrix(now, 17, 4, 5)
        assert now.cost == pytest.approx(start.cost + walk.longer_mm)


@pytest.mark.parametrize(("keys", "rows", "columns"), [(1, 1, 1), (2, 1, 2), (2, 2, 1), (3, 2, 2)])
def test_the_smallest_plates_are_walked_as_well(keys, rows, columns):
    plan = Plan(tuple(scattered(keys, keys)))
    for start in beginnings(plan, rows, columns, []):
        assert is_matrix(anneal(start, 300, 8.0, Random(1)), keys, rows, columns)
