"""Walks from layout to layout: always a matrix, and from a bad one to a much better one."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.fit.anneal import anneal
from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan
from tests.fit.plates import is_matrix, plate


def shuffled(seed: int, rows: int, columns: int) -> Layout:
    """A full block of keys on rows and columns drawn by lot."""
    plan = Plan(tuple(plate(*[(0.25 * n, columns) for n in range(rows)])))
    keys = Random(seed).sample(range(rows * columns), rows * columns)
    across = tuple(tuple(keys[n * columns : (n + 1) * columns]) for n in range(rows))
    return Layout(plan, across, tuple(zip(*across, strict=True)))


@pytest.mark.parametrize("seed", range(5))
def test_a_layout_drawn_by_lot_loses_two_thirds_of_its_wire(seed):
    start = shuffled(seed, 5, 9)
    end = anneal(start, 20_000, Random(seed))
    assert is_matrix(end, 45, 5, 9)
    assert end.run_mm < start.run_mm / 3


@pytest.mark.parametrize("steps", [0, 1, 50])
def test_a_walk_never_ends_at_a_worse_place(steps):
    start = shuffled(1, 4, 4)
    assert anneal(start, steps, Random(2)).cost <= start.cost
