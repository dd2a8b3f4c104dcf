"""The fewest diodes against exhaustive search on matrices of up to 16 keys."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.circuit.fewest_diodes import fewest_diodes
from matrixgen.model import Contact, Matrix
from matrixgen.record import changed
from tests.circuit.every_subset import fewest_diodes_of_all, ghosting_subsets
from tests.circuit.matrices import matrix, random_matrix


def with_diodes(of: Matrix, keys: set[str]) -> Matrix:
    """The matrix with diodes at some keys, and every reversed one turned."""
    return changed(
        of,
        contacts=tuple(
            Contact(one.key, one.drive, one.sense, "toward")
            if one.key in keys or one.diode == "away"
            else one
            for one in of.contacts
        ),
    )


@pytest.mark.parametrize("seed", range(8))
def test_no_fewer_diodes_end_every_ghost(seed: int) -> None:
    chance, needed = Random(seed), 0
    for _ in range(15):
        of = random_matrix(chance, most_keys=12)
        found = fewest_diodes(of, lambda ghost: True)
        assert not ghosting_subsets(with_diodes(of, set(found)))
        assert len(found) == fewest_diodes_of_all(of)
        needed += bool(found)
    assert needed > 3


RING = [(0, 0), (0, 1), (1, 1), (1, 2), (2, 2), (2, 3), (3, 3), (3, 0)]


@pytest.mark.parametrize(
    "places",
    [
        RING,
        [*RING, (0, 2), (2, 0)],
        [*RING, *((d + 4, s + 4) for d, s in RING)],
        [(d, s) for d in range(4) for s in range(4)],
    ],
    ids=["ring", "ring with chords", "two rings, 16 keys", "full, 16 keys"],
)
def test_nor_on_matrices_where_there_is_a_choice(places: list[tuple[int, int]]) -> None:
    of = matrix(dict.fromkeys(places, "none"))
    found = fewest_diodes(of, lambda ghost: True)
    assert not ghosting_subsets(with_diodes(of, set(found)))
    assert len(found) == fewest_diodes_of_all(of)


def test_only_ghosts_that_matter_are_ended() -> None:
    of = matrix({(d, s): "none" for d in range(3) for s in range(3)})
    matters = {"k00", "k01", "k11"}
    found = fewest_diodes(of, lambda ghost: ghost.keys <= matters)
    assert found == ("k01",)
    left = ghosting_subsets(with_diodes(of, set(found)))
    mask = sum(1 << n for n, one in enumerate(of.contacts) if one.key in matters)
    assert not [subset for subset in left if subset & ~mask == 0]
    assert left
