"""In which order a wire visits its keys best: surely so for a few, else nearly."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

MOST_EXACT = 7
"""Keys on one wire up to which the best order is found by looking at all of them."""

LEAST_GAIN = 1e-9


def cost(run: Sequence[int], hops: list[list[float]]) -> float:
    """Return what a run costs, by a table of what each hop does."""
    return sum([hops[one][other] for one, other in pairwise(run)])


def best_order(run: Sequence[int], hops: list[list[float]]) -> list[int]:
    """Return the keys of a wire in an order that costs least: surely so for a few, else nearly."""
    if len(run) < 3:
        return list(run)
    return _of_all_orders(run, hops) if len(run) <= MOST_EXACT else _without_crossings(run, hops)


def _of_all_orders(run: Sequence[int], hops: list[list[float]]) -> list[int]:
    """Return the best order of all, from the best ways through each part of the keys."""
    size = len(run)
    best: dict[tuple[int, int], tuple[float, int]] = {(1 << k, k): (0.0, -1) for k in range(size)}
    for visited in range(1, 1 << size):
        for last in range(size):
            if (visited, last) not in best:
                continue
            so_far = best[visited, last][0]
            for new in range(size):
                if visited >> new & 1:
                    continue
                there = (visited | 1 << new, new)
                found = so_far + hops[run[last]][run[new]]
                if there not in best or found < best[there][0] - LEAST_GAIN:
                    best[there] = (found, last)
    return _traced(run, best)


def _traced(run: Sequence[int], best: dict[tuple[int, int], tuple[float, int]]) -> list[int]:
    """Return the keys along the best way, read backwards from its end."""
    everything = (1 << len(run)) - 1
    last = min(range(len(run)), key=lambda k: best[everything, k][0])
    order, visited = [], everything
    while last >= 0:
        order.append(run[last])
        before = best[visited, last][1]
        visited, last = visited & ~(1 << last), before
    return order[::-1]


def _without_crossings(run: Sequence[int], hops: list[list[float]]) -> list[int]:
    """Return an order that no turning round of a part of it makes better (2-opt)."""
    order, is_better = list(run), True
    while is_better:
        is_better = False
        for start in range(len(order) - 1):
            for end in range(start + 1, len(order)):
                if _gain(order, start, end, hops) > LEAST_GAIN:
                    order[start : end + 1] = order[start : end + 1][::-1]
                    is_better = True
    return order


def _gain(order: list[int], start: int, end: int, hops: list[list[float]]) -> float:
    """Return what is saved by turning a part of an order round."""
    gain = 0.0
    if start > 0:
        before = order[start - 1]
        gain += hops[before][order[start]] - hops[before][order[end]]
    if end + 1 < len(order):
        after = order[end + 1]
        gain += hops[order[end]][after] - hops[order[start]][after]
    return gain
