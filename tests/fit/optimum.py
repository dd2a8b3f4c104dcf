"""The least that a small matrix can cost in wire and jumpers, proven: an integer program by scipy.

Independent of the search: each set of keys that may share a row is a choice with the cost of the
best order of all its orders, and so is each that may share a column. Every key is in one chosen row
and one chosen column, no two keys are in one of both, and there are so many rows and columns.
"""

from __future__ import annotations

from itertools import combinations, pairwise, permutations
from math import dist

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

REACH_MM = 19.05 + 0.1
"""One key unit (common practice, no source), and what layouts are rounded to."""

JUMPER_MM = 12.0
"""The wire that is as dear as one more jumper, as `matrixgen/fit/plan.py` has it."""


def least_cost(points: list[tuple[float, float]], rows: int, columns: int) -> float:
    """Return it in millimetres of wire: all column hops, and row hops beyond a lead's reach."""
    keys = range(len(points))
    by_row = [s for n in range(1, columns + 1) for s in combinations(keys, n)]
    by_column = [s for n in range(1, rows + 1) for s in combinations(keys, n)]
    costs = [_shortest(points, s, REACH_MM) for s in by_row]
    costs += [_shortest(points, s, 0.0) for s in by_column]
    sets = [*by_row, *by_column]
    is_row = np.arange(len(sets)) < len(by_row)
    has = np.array([[key in chosen for chosen in sets] for key in keys], dtype=float)
    limits = [
        LinearConstraint(has * is_row, 1, 1),
        LinearConstraint(has * ~is_row, 1, 1),
        LinearConstraint([is_row.astype(float)], rows, rows),
        LinearConstraint([(~is_row).astype(float)], columns, columns),
        LinearConstraint([has[a] * has[b] for a, b in combinations(keys, 2)], 0, 1),
    ]
    found = milp(costs, integrality=np.ones(len(sets)), bounds=Bounds(0, 1), constraints=limits)
    assert found.status == 0, found.message
    return float(found.fun)


def _shortest(points: list[tuple[float, float]], keys: tuple[int, ...], free_up_to: float) -> float:
    """Return the least wire of all orders of some keys."""
    return min(
        sum(_wire(dist(points[a], points[b]), free_up_to) for a, b in pairwise(order))
        for order in permutations(keys)
        if order[0] <= order[-1]
    )


def _wire(mm: float, free_up_to: float) -> float:
    if free_up_to == 0:
        return mm
    return 0.0 if mm <= free_up_to else mm + JUMPER_MM
