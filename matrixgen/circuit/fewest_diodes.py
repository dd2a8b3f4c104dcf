"""The fewest diodes to add so that ghosts end: all of them, or those that matter.

A ghost ends as soon as one of the keys by which its current leaves a driven line gets a diode. So
the answer is a smallest set of keys that has one of each ghost's: a hitting set. Ghosts are looked
for only as long as the diodes so far leave one, since most are ended by the diodes for others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import islice

from matrixgen.circuit.effort import Effort
from matrixgen.circuit.ghosts import ENDLESS, Ghost, minimal_ghosts
from matrixgen.circuit.network import Network
from matrixgen.model import Matrix, turned_right, with_diodes

AT_ONCE = 500
"""Ghosts that are looked at before the diodes for them are chosen anew."""


def fewest_diodes(
    matrix: Matrix, matters: Callable[[Ghost], bool], effort: Effort | None = None
) -> tuple[str, ...]:
    """Return the fewest keys to give a diode so that no ghost that matters is left."""
    effort = effort or Effort(ENDLESS)
    return fewest_against(
        matrix, lambda network: filter(matters, minimal_ghosts(network, effort=effort)), effort
    )


def fewest_against(
    matrix: Matrix,
    ghosts_of: Callable[[Network], Iterable[Ghost]],
    effort: Effort | None = None,
) -> tuple[str, ...]:
    """Return the fewest keys to give a diode so that no ghost is left of those that are asked for.

    `ghosts_of` finds these in any matrix of the same keys. Keys are named in plate order. A diode
    that points away from the driven line is taken to be turned first: its key is never seen anyway.
    Where the effort is spent, it is every key without a diode, which ends all ghosts.
    """
    effort = effort or Effort(ENDLESS)
    matrix = turned_right(matrix)
    to_end: set[frozenset[str]] = set()
    added: frozenset[str] = frozenset()
    while True:
        network = Network(with_diodes(matrix, added))
        new = {_curing(ghost) for ghost in islice(ghosts_of(network), AT_ONCE)}
        if effort.is_spent:
            return tuple(one.key for one in matrix.contacts if one.diode == "none")
        if not new:
            return tuple(one.key for one in matrix.contacts if one.key in added)
        to_end = _without_larger(to_end | new, effort)
        added = _smallest_hitting(to_end, effort)


def _curing(ghost: Ghost) -> frozenset[str]:
    return frozenset(one.key for one in ghost.back)


def _without_larger(sets: set[frozenset[str]], effort: Effort) -> set[frozenset[str]]:
    """Return the sets that contain no other one: ending those ends the others too."""
    kept: list[frozenset[str]] = []
    for one in sorted(sets, key=lambda one: (len(one), sorted(one))):
        effort.spend(1 + len(kept) // 30)
        if not any(other <= one for other in kept):
            kept.append(one)
    return set(kept)


def _smallest_hitting(sets: set[frozenset[str]], effort: Effort) -> frozenset[str]:
    """Return a smallest set that has an element of each: those that stand alone, and the rest."""
    forced = frozenset().union(*(one for one in sets if len(one) == 1))
    rest = [one for one in sets if not one & forced]
    return forced | _Branches(sorted(rest, key=lambda one: (len(one), sorted(one))), effort).best()


class _Branches:
    """Branch and bound: take each element of the first set that is not hit yet."""

    def __init__(self, sets: list[frozenset[str]], effort: Effort) -> None:
        self._sets = sets
        self._effort = effort
        self._best: frozenset[str] = frozenset().union(*sets)

    def best(self) -> frozenset[str]:
        self._search(frozenset(), frozenset())
        return self._best

    def _search(self, chosen: frozenset[str], refused: frozenset[str]) -> None:
        if not self._effort.spend(1 + len(self._sets) // 10):
            return
        open_sets = [one for one in self._sets if not one & chosen]
        if len(chosen) + _apart(open_sets, refused) >= len(self._best):
            return
        if not open_sets:
            self._best = chosen
            return
        for key in sorted(open_sets[0] - refused):
            if self._effort.is_spent:
                return
            self._search(chosen | {key}, refused)
            refused |= {key}


def _apart(sets: list[frozenset[str]], refused: frozenset[str]) -> int:
    """Return how many of the sets share no element: at least so many more are needed.

    More than there can be where a set has nothing left but what was refused.
    """
    used: frozenset[str] = frozenset()
    count = 0
    for one in sets:
        if one <= refused:
            return len(sets) + 1 << 20
        if not one & used:
            used |= one
            count += 1
    return count
