"""A matching of greatest weight between two groups: each of one with at most one of the other."""

from __future__ import annotations

from collections.abc import Mapping


def greatest_matching(weights: Mapping[tuple[int, int], int]) -> dict[int, int]:
    """Return for each of the second group that is matched which of the first it has.

    `weights` has the pairs that may be, with weights above 0. The matching grows by one pair at a
    time along the path that gains most, which keeps it the best of its size; it is done when no
    path gains anything.
    """
    of_second: dict[int, int] = {}
    while True:
        gains, before = _best_paths(weights, of_second)
        free = [(gain, -second) for second, gain in gains.items() if second not in of_second]
        if not free or max(free)[0] <= 0:
            return of_second
        second = -max(free)[1]
        while True:
            first = before[second]
            given_up = next((one for one, of_it in of_second.items() if of_it == first), None)
            of_second[second] = first
            if given_up is None:
                break
            second = given_up


def _best_paths(
    weights: Mapping[tuple[int, int], int], of_second: Mapping[int, int]
) -> tuple[dict[int, int], dict[int, int]]:
    """Return what the best path to each of the second group gains, and the last step of it.

    Paths begin at one of the first group that is not matched. What a path takes a pair from loses
    that pair's weight (Bellman and Ford's way, for the longest paths).
    """
    second_of = {first: second for second, first in of_second.items()}
    gains: dict[int, int] = {}
    before: dict[int, int] = {}
    is_changing = True
    while is_changing:
        is_changing = False
        for (first, second), weight in weights.items():
            had = second_of.get(first)
            if had == second or (had is not None and had not in gains):
                continue
            gain = weight if had is None else gains[had] - weights[first, had] + weight
            if second not in gains or gain > gains[second]:
                gains[second], before[second] = gain, first
                is_changing = True
    return gains, before
