"""Laying a matrix out so that it needs little wire.

From each of several beginnings one goes a short walk, from the best few a longer one, and from the
best two a long one. Chance is drawn from a fixed seed, and effort is counted in steps, not seconds:
the same plate gives the same layout everywhere. Nothing proves that it is the best one; tests/fit
holds it against proven ones.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import cycle, islice
from math import inf
from random import Random

from matrixgen.fit.anneal import anneal
from matrixgen.fit.beginnings import Groups, as_drawn, beginnings
from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan
from matrixgen.record import Record


class Stage(Record):
    """So many walks from the best layouts: their steps, and how bold they are at first."""

    walks: int
    steps: int
    hottest_mm: float


STAGES = (Stage(14, 2_000, 4.0), Stage(6, 5_000, 8.0), Stage(2, 20_000, 8.0))

LARGE_KEYS, MOST_TIMES = 104, 3.0
"""A plate with fewer keys has fewer matrices, and is walked over more often: so often at most."""

LEAST_MM = 1e-3
"""A difference in wire that is none: distances are rounded to less."""

USUAL_STEPS = sum(stage.walks for stage in STAGES)
"""How often `lay_out` tells that it has got on."""

Progress = Callable[[], object]


def lay_out(
    plan: Plan,
    rows: int,
    columns: int,
    *,
    drawn: Groups = (),
    progress: Progress = lambda: None,
) -> Layout | None:
    """Return a layout of exactly so many rows and columns that needs little wire, in order.

    `drawn` has the plate's own lines, each from left to right: where they make such a matrix, the
    layout needs no more wire than they do with columns from left to right. `progress` is called
    now and then. None where so many rows and columns do not hold the keys, or there are fewer keys
    than rows or columns.
    """
    keys = len(plan.points)
    if not max(rows, columns) <= keys <= rows * columns:
        return None
    chance = Random(f"{keys} {rows} {columns}")
    times = min(MOST_TIMES, max(1.0, LARGE_KEYS / keys))
    found = here = beginnings(plan, rows, columns, drawn)
    for stage in STAGES:
        best_first = cycle(sorted(dict.fromkeys(here), key=lambda layout: layout.cost))
        here = []
        for start in islice(best_first, stage.walks):
            here.append(anneal(start, round(stage.steps * times), stage.hottest_mm, chance))
            progress()
        found += here
    plain = as_drawn(plan, rows, columns, drawn)
    most_mm = plain.run_mm + LEAST_MM if plain else inf
    best = _best_of(found, most_mm)
    return _best_of([best, best.tidied], most_mm).in_order()


def _best_of(layouts: Sequence[Layout], most_mm: float) -> Layout:
    """Return the layout that costs least, of those with no more wire than so much."""
    fine = (layout for layout in layouts if layout.run_mm <= most_mm)
    return min(fine, key=lambda layout: round(layout.cost, 6))
