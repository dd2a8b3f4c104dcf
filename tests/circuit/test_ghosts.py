"""Ghosts against brute force over all subsets, and against networkx's reachability."""

from __future__ import annotations

from random import Random

import networkx
import pytest

from matrixgen.circuit.ghosts import counted_ghosts, minimal_ghosts, smallest_ghost_size
from matrixgen.circuit.network import Network
from matrixgen.model import Matrix
from tests.amounts import IS_LONG
from tests.circuit.every_subset import ghosting_subsets, minimal
from tests.circuit.matrices import matrix, random_matrix

DRIVEN = 5 if IS_LONG else 4
FULL = {(drive, sense): "none" for drive in range(3) for sense in range(3)}


def as_number(of: Matrix, keys: frozenset[str]) -> int:
    return sum(1 << number for number, one in enumerate(of.contacts) if one.key in keys)


@pytest.mark.parametrize("seed", range(10))
def test_minimal_ghosts_are_those_of_brute_force_over_all_subsets(seed: int) -> None:
    chance, with_ghosts = Random(seed), 0
    for _ in range(50):
        of = random_matrix(chance, most_keys=12)
        truth = ghosting_subsets(of)
        found = list(minimal_ghosts(Network(of)))
        numbers = [as_number(of, ghost.keys) for ghost in found]
        assert len(set(numbers)) == len(numbers)
        assert set(numbers) == minimal(truth)
        for ghost, number in zip(found, numbers, strict=True):
            assert {of.contacts.index(ghost.seen)} == truth[number]
        sizes = [len(ghost.pressed) for ghost in found]
        assert smallest_ghost_size(Network(of)) == min(sizes, default=None)
        with_ghosts += bool(found)
    assert with_ghosts > 20


@pytest.mark.parametrize("kind", ["none", "mixed"])
def test_so_they_are_on_a_full_matrix_of_many_keys(kind: str) -> None:
    """Of sixteen, and of twenty in the long run: every subset of them is tried."""
    chance = Random(20)
    kinds = ["none"] if kind == "none" else ["none", "none", "toward", "away"]
    of = matrix({(d, s): chance.choice(kinds) for d in range(DRIVEN) for s in range(4)})
    found = {as_number(of, ghost.keys) for ghost in minimal_ghosts(Network(of))}
    truth = ghosting_subsets(of)
    assert found <= truth.keys()
    smallest = {number for number in truth if number.bit_count() == 3}
    assert {number for number in found if number.bit_count() == 3} == smallest


def conducting(of: Matrix, pressed: frozenset[str]) -> networkx.DiGraph:
    """The way that current can go while some keys are pressed, as a graph of networkx."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(("sense", n) for n in range(len(of.senses)))
    graph.add_nodes_from(("drive", n) for n in range(len(of.drives)))
    for key in (key for key in of.contacts if key.key in pressed):
        ends = ("sense", key.sense), ("drive", key.drive)
        if key.diode != "away":
            graph.add_edge(*ends)
        if key.diode != "toward":
            graph.add_edge(*reversed(ends))
    return graph


@pytest.mark.parametrize("seed", range(5))
def test_a_ghost_s_way_is_there_for_networkx_and_breaks_without_any_one_key(seed: int) -> None:
    chance, tried = Random(100 + seed), 0
    for _ in range(40):
        of = random_matrix(chance, most_keys=20, side=6)
        for ghost in list(minimal_ghosts(Network(of)))[:50]:
            ends = ("sense", ghost.seen.sense), ("drive", ghost.seen.drive)
            assert networkx.has_path(conducting(of, ghost.keys), *ends)
            for key in ghost.keys:
                assert not networkx.has_path(conducting(of, ghost.keys - {key}), *ends)
            tried += 1
    assert tried > 200


def test_the_current_of_a_ghost_runs_from_line_to_line() -> None:
    for ghost in minimal_ghosts(Network(matrix(FULL))):
        place = ghost.seen.sense
        for there, back in zip(ghost.pressed[::2], ghost.back, strict=False):
            assert there.sense == place
            assert back.drive == there.drive
            place = back.sense
        assert (ghost.pressed[-1].sense, ghost.pressed[-1].drive) == (place, ghost.seen.drive)


@pytest.mark.parametrize(("drives", "senses"), [(2, 2), (3, 3), (4, 3), (10, 11)])
def test_a_full_matrix_without_diodes_has_four_ghosts_a_rectangle(drives: int, senses: int) -> None:
    of = matrix({(d, s): "none" for d in range(drives) for s in range(senses)})
    rectangles = drives * (drives - 1) // 2 * (senses * (senses - 1) // 2)
    assert counted_ghosts(Network(of), 100_000) == 4 * rectangles
    assert smallest_ghost_size(Network(of)) == 3


def test_a_full_matrix_with_diodes_has_none() -> None:
    of = matrix(dict.fromkeys(FULL, "toward"))
    assert (smallest_ghost_size(Network(of)), counted_ghosts(Network(of), 10)) == (None, 0)


def test_counting_stops_where_it_is_told_to() -> None:
    assert counted_ghosts(Network(matrix(FULL)), 7) == 7
