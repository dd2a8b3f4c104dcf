"""Keys that sit at each other's place, found in what each of them closes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from matrixgen.bench.faults.netlist import Pairs
from matrixgen.bench.faults.observe import Exchange, Seen
from matrixgen.circuit.bits import bits_of

MOST_EXCHANGED = 4
"""Keys that two exchanges can move, at most."""


def one_swap(
    seen: Seen, left: int, healthy: Sequence[Pairs], looks: Mapping[int, Pairs]
) -> Iterator[Exchange]:
    """Yield the exchanges of two keys that explain the keys that are left, as bits.

    `looks` has what keys close at their own places, where that is not what is healthy. One of the
    two may not have been pressed yet.
    """
    keys = bits_of(left)
    if len(keys) == 2:
        x, y = keys
        if seen.keys[x] == looks.get(y, healthy[y]) and seen.keys[y] == looks.get(x, healthy[x]):
            yield x, y
    if len(keys) == 1:
        [x] = keys
        for y in range(len(healthy)):
            if y not in seen.keys and seen.keys[x] == looks.get(y, healthy[y]):
                yield min(x, y), max(x, y)


def two_swaps(
    seen: Seen, left: int, healthy: Sequence[Pairs]
) -> Iterator[tuple[Exchange, Exchange]]:
    """Yield two exchanges that explain the keys that are left; all were pressed."""
    keys = bits_of(left)
    if not 3 <= len(keys) <= MOST_EXCHANGED:
        return
    pairs = list(combinations(keys, 2))
    for swaps in ((one, other) for one in pairs for other in pairs if one != other):
        shared = set(swaps[0]) & set(swaps[1])
        if swaps[0] > swaps[1] if not shared else min(*swaps[0], *swaps[1]) not in shared:
            continue  # two exchanges of three keys are a rotation, whichever two of the three
        places = {key: key for key in keys}
        for x, y in swaps:
            places[x], places[y] = places[y], places[x]
        if all(healthy[places[key]] == seen.keys[key] for key in keys):
            yield swaps
