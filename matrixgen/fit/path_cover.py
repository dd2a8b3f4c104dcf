"""The cheapest wires through layers of keys: exactly, as an assignment problem.

Where the rows are known and numbered, each column goes from row to row, downwards, and meets no row
twice. To find the columns that need least wire is then to give each key at most one key of a later
row to go on to, so that as many keys go on to none as there are columns: a path cover of a graph
without cycles, which is an assignment problem (path covers by matching: Dilworth's theorem after
Fulkerson, Proc. AMS 7, 1956; from memory). The same with rows and columns exchanged.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linear_sum_assignment

Costs = NDArray[np.float64]

NEVER = 1e9
"""What a hop costs that there must not be: more than all wire together."""


def cheapest_paths(layer: Sequence[int], hops: Costs, paths: int) -> list[tuple[int, ...]] | None:
    """Return exactly so many paths through all keys, each going from lower to higher layers.

    `layer` has each key's layer, `hops` the cost of each hop, keys by keys. None where there are no
    such paths: a layer has more keys than there are paths, or there are more paths than keys.
    """
    keys = len(layer)
    costs = np.full((keys + paths, keys + paths), NEVER)
    layers = np.asarray(layer)
    costs[:keys, :keys] = np.where(layers[:, None] < layers[None, :], hops, NEVER)
    costs[:keys, keys:] = 0.0  # this key is the end of a path
    costs[keys:, :keys] = 0.0  # this key is its beginning
    one, other = linear_sum_assignment(costs)
    if costs[one, other].max() >= NEVER:
        return None
    follower = other.tolist()
    begins = sorted(follower[keys:])
    return [_path(begin, follower, keys) for begin in begins]


def _path(begin: int, follower: Sequence[int], keys: int) -> tuple[int, ...]:
    path = [begin]
    while follower[path[-1]] < keys:
        path.append(follower[path[-1]])
    return tuple(path)
