"""Laying a matrix out so that it needs little wire.

From several beginnings one goes downhill by exact steps, on a small plate also from many places
beside the best one; then each result is improved key by key, the best two for longer. Chance is
drawn from a fixed seed, and effort is counted in steps, not seconds: the same plate gives the same
layout everywhere. Nothing proves that it is the best one; tests/fit holds it against proven ones.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

from matrixgen.fit.anneal import anneal
from matrixgen.fit.beginnings import Groups, as_drawn, beginnings
from matrixgen.fit.descend import Descent, best_of
from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan

SHORT_WALK, LONG_WALK = 6_000, 30_000
LONG_WALKS = 2
MOST_LOOKS = 3_000
"""Places beside the best one that are looked at, shared by the keys: fewer on a large plate."""

USUAL_STEPS = 18
"""About how often `lay_out` tells that it has got on."""

MOST_WORSE = 0.03
"""How much more wire a layout may need that is gone on from, at first."""

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
    layout needs no more wire than they do. `progress` is called now and then. None where so many
    rows and columns do not hold the keys, or there are fewer keys than rows or columns.
    """
    keys = len(plan.points)
    if not max(rows, columns) <= keys <= rows * columns:
        return None
    chance = Random(f"{keys} {rows} {columns}")
    descent = Descent(plan, rows, columns)
    starts = [as_drawn(plan, rows, columns, drawn)]
    for groups in beginnings(plan, rows, columns, drawn):
        starts.append(descent.down(groups))
        progress()
    starts.append(_looked_around(best_of(starts), descent, MOST_LOOKS // keys, chance))
    progress()
    best = best_of([*starts, *_walked([one for one in starts if one], chance, progress)])
    return best.in_order() if best else None


def _walked(starts: Sequence[Layout], chance: Random, progress: Progress) -> list[Layout]:
    """Return what short walks from some layouts lead to, and longer ones from the best of those."""
    walked: list[Layout] = []
    for start in dict.fromkeys(starts):
        walked.append(anneal(start, SHORT_WALK, chance).tidied)
        progress()
    walked.sort(key=lambda layout: layout.cost)
    for layout in walked[:LONG_WALKS]:
        walked.append(anneal(layout, LONG_WALK, chance).tidied)
        progress()
    return walked


def _looked_around(
    here: Layout | None, descent: Descent, looks: int, chance: Random
) -> Layout | None:
    """Go from place to place, at first also to slightly worse ones; return the best one met."""
    best = here
    for number in range(looks):
        if here is None:
            break
        there = descent.beside(here, chance)
        patience = 1 + MOST_WORSE * (1 - number / looks)
        if there and there.cost < here.cost * patience:
            here = there
            best = best_of([best, here])
    return best
