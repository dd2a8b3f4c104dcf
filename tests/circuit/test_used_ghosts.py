"""The ghosts of a keymap's own combinations: beside brute force, and on matrices without diodes."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random
from types import SimpleNamespace

import pytest

from matrixgen.circuit.combinations import KeyUse, Uses
from matrixgen.circuit.fewest_diodes import fewest_against
from matrixgen.circuit.figures.ghosts import ghost_figures
from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.ghosts import counted_ghosts, minimal_ghosts
from matrixgen.circuit.network import Network
from matrixgen.circuit.used_ghosts import used_ghosts
from matrixgen.model import LatchLayer, Matrix, Press, matrix_of
from matrixgen.record import changed
from tests.circuit.every_subset import ghosting_subsets, minimal
from tests.circuit.matrices import matrix, random_matrix
from tests.firmware.build_model import keyboard


def random_uses(chance: Random, of: Matrix) -> Uses:
    """Some uses of a keymap that might be: a few keys held, some modifiers, others dead."""
    keys = [one.key for one in of.contacts]

    def some(most: int) -> frozenset[str]:
        return frozenset(chance.sample(keys, min(len(keys), chance.randint(0, most))))

    uses = [KeyUse(layers=(), held=some(3), modifiers=some(6), others=some(12)) for _ in range(3)]
    together = KeyUse(layers=(), held=some(6), modifiers=frozenset(), others=frozenset())
    return SimpleNamespace(all=(*uses, together))  # type: ignore[return-value]


def numbers(of: Matrix, sets: Iterable[frozenset[str]]) -> set[int]:
    return {sum(1 << n for n, one in enumerate(of.contacts) if one.key in keys) for keys in sets}


@pytest.mark.parametrize("seed", range(6))
def test_they_are_the_minimal_ones_of_brute_force_that_a_use_has_down(seed: int) -> None:
    chance, some = Random(seed), 0
    for _ in range(50):
        of = random_matrix(chance, most_keys=11)
        uses = random_uses(chance, of)
        names = [one.key for one in of.contacts]
        wanted = {
            subset
            for subset in minimal(ghosting_subsets(of))
            if any(u.has(k for n, k in enumerate(names) if subset >> n & 1) for u in uses.all)
        }
        found = used_ghosts(Network(of), uses)
        assert numbers(of, (one.ghost.keys for one in found)) == wanted
        assert len(found) == len(wanted)
        assert all(one.use.has(one.ghost.keys) for one in found)
        some += len(found)
    assert some > 30


@pytest.mark.parametrize("seed", range(3))
def test_with_the_fewest_diodes_for_it_a_keymap_has_none(seed: int) -> None:
    chance = Random(seed)
    for _ in range(30):
        of = random_matrix(chance, most_keys=12)
        uses = random_uses(chance, of)

        def ghosts_of(network: Network, uses: Uses = uses) -> list:
            return [one.ghost for one in used_ghosts(network, uses)]

        diodes = set(fewest_against(of, ghosts_of))
        contacts = tuple(
            changed(one, diode="toward") if one.key in diodes or one.diode == "away" else one
            for one in of.contacts
        )
        truth = ghosting_subsets(changed(of, contacts=contacts))
        names = [one.key for one in of.contacts]
        for subset in truth:
            keys = [key for n, key in enumerate(names) if subset >> n & 1]
            assert not any(use.has(keys) for use in uses.all)


@pytest.mark.parametrize("side", [12, 32])
@pytest.mark.parametrize("corner", ["upper left", "lower right"])
def test_a_keymap_s_ghosts_are_all_found_wherever_its_modifiers_are(side, corner) -> None:
    """Two modifiers in a row: each key of their columns makes a ghost with them, worked by hand."""
    at = 0 if corner == "upper left" else side - 2
    names = [[f"R{row}C{column}" for column in range(side)] for row in range(side)]
    actions = {name: Press(4) for row in names for name in row}
    row = side - 1 if at else 0
    actions |= {names[row][at]: Press(0, 1), names[row][at + 1]: Press(0, 2)}
    pad = keyboard(names, {"base": actions})
    bare = tuple(word for line in pad.wiring.of_axis("row") for word in line.visits)
    pad = changed(pad, wiring=changed(pad.wiring, without_diode=bare))
    report = GhostReport(pad, matrix_of(pad))
    assert len(report.used) == 2 * (side - 1)
    assert report.for_keymap.keys == (names[row][at], names[row][at + 1])
    assert len(report.for_all.keys) == side * side
    assert report.counted == "more than 10,000"


def test_sets_of_three_are_counted_without_following_every_way() -> None:
    chance, some = Random(3), 0
    for _ in range(100):
        of = random_matrix(chance, most_keys=14)
        ghosts = [one for one in minimal_ghosts(Network(of)) if len(one.pressed) == 3]
        assert Network(of).rectangles == len(ghosts)
        some += len(ghosts)
    assert some > 100
    full = matrix({(d, s): "none" for d in range(8) for s in range(8)})
    assert Network(full).rectangles == counted_ghosts(Network(full), 10_000) == 4 * 28 * 28


def test_a_keymap_with_more_states_of_layers_than_are_tried_is_counted_as_at_least() -> None:
    names = [
        ["A", "B"],
        ["C", "D"],
        [f"L{n}" for n in range(2)],
        *([f"L{n}", f"M{n}"] for n in range(2, 8)),
    ]
    keys = [name for row in names for name in row]
    latches = [name for name in keys if name[0] in "LM"]
    base = {name: LatchLayer(f"on {name}") if name in latches else Press(4) for name in keys}
    layers = {"base": base} | {f"on {name}": {"A": Press(5)} for name in latches}
    pad = keyboard(names, layers)
    bare = tuple(word for line in pad.wiring.of_axis("row") for word in line.visits)
    pad = changed(pad, wiring=changed(pad.wiring, without_diode=bare))
    report = GhostReport(pad, matrix_of(pad))
    assert not report.uses.is_complete
    [keymap] = [one for one in ghost_figures(report).figures if one.symbol == "n_keymap"]
    assert str(keymap.value).startswith("at least ")
