"""Which layer of an old file is which of a new one: by name, unless names were exchanged."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from matrixgen.compare.facts import Facts
from matrixgen.compare.pairs import Match, greedy_matching, joined, left
from matrixgen.model.layers import BASE

Cells = Mapping[str, Mapping[str, Any]]
"""What each layer says of each key."""

ALIKE = 0.5
"""Share of the cells of two layers that are the same, from which on they are taken for one."""


def matched_layers(old: Facts, new: Facts) -> Match:
    """Match layers by name, or by their cells if names were exchanged; others by their cells."""
    cells = cells_by_layer(old), cells_by_layer(new)

    def score(a: str, b: str) -> float:
        one, other = cells[0][a], cells[1][b]
        same = len([key for key, action in one.items() if other.get(key) == action])
        return same / max(len(one), len(other), 1)

    named = {name: name for name in cells[0] if name in cells[1]}
    doubted = [name for name in named if name != BASE and score(name, name) < ALIKE]
    exchanged = _cycles(greedy_matching(doubted, doubted, score, ALIKE).new_of)
    sure = named
    if exchanged:  # of both ways to see it, the one with less to tell
        sure = min((named, {**named, **exchanged}), key=lambda way: _changes(*cells, way))
    rest = greedy_matching(left(cells[0], sure), left(cells[1], sure.values()), score, ALIKE)
    return joined(sure, rest)


def cells_by_layer(facts: Facts) -> dict[str, dict[str, Any]]:
    """Return what each layer says of each key."""
    found: dict[str, dict[str, Any]] = {name: {} for name in facts["layers",]}
    for path, action in facts.items():
        if path[0] == "cell":
            found[path[1]][path[2]] = action
        elif path[0] == "together":
            found[path[1]][" ".join(path[2:])] = action[0]
    return found


def _cycles(new_of: Mapping[str, str]) -> dict[str, str]:
    """Return the pairs in which names only go round: each old one is a new one too."""
    found = dict(new_of)
    while loose := [old for old in found if old not in found.values() or found[old] not in found]:
        for old in loose:
            del found[old]
    return found


def _changes(old: Cells, new: Cells, new_of: Mapping[str, str]) -> int:
    """Return how much there would be to tell: names, and cells of layers that both have."""
    names = {a: b for a, b in new_of.items() if a != b}
    cost = len(names)
    for a, b in new_of.items():
        renamed = {key: action.with_layers(names) for key, action in old[a].items()}
        cost += _differing(renamed, new[b])
    return cost


def _differing(one: Mapping[str, Any], other: Mapping[str, Any]) -> int:
    """Return how many keys have another action, or one in only one of the two."""
    return sum(one.get(key) != other.get(key) for key in {**one, **other})
