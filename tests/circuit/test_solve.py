"""The voltages of random networks against ngspice, and against a circuit worked by hand."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.circuit.solve import Circuit, ampere_through, solved, volts
from matrixgen.model import Contact, Matrix
from tests.circuit.matrices import matrix, random_matrix
from tests.circuit.spice import DIODES_INC, FAIRCHILD, node_volts, shockley

LOW_VOLTS, HIGH_VOLTS = 0.1e-3, 5e-3
"""How far ours may be from ngspice's on a line below and above half of the supply. Diodes that
block leak some nA in ngspice and nothing in ours: a line shows it that only its pull-up holds."""


def circuit(chance: Random, of: Matrix, model: dict[str, float]) -> Circuit:
    return Circuit(
        supply_volts=chance.choice([3.3, 5.0]),
        driver_ohm=chance.uniform(20, 100),
        switch_ohm=chance.choice([0.1, 10.0, 500.0]),
        drive_pull_ohm=tuple(chance.uniform(2e4, 8e4) for _ in of.drives),
        sense_pull_ohm=tuple(chance.uniform(2e4, 8e4) for _ in of.senses),
        drop=shockley(model).drop(),
    )


@pytest.mark.parametrize("model", [FAIRCHILD, DIODES_INC], ids=["Fairchild", "Diodes Inc."])
def test_every_line_of_random_networks_is_where_ngspice_has_it(model: dict[str, float]) -> None:
    chance, low = Random(7), 0
    for _ in range(50):
        of = random_matrix(chance, most_keys=30, side=7)
        pressed = [one for one in of.contacts if chance.random() < 0.6]
        at, drive = circuit(chance, of, model), chance.randrange(len(of.drives))
        ours, theirs = volts(at, pressed, drive), node_volts(at, pressed, drive, model)
        found = {f"s{number}": one for number, one in enumerate(ours.senses)}
        found |= {f"d{number}": one for number, one in enumerate(ours.drives)}
        for node, ours_there in found.items():
            is_low = ours_there < at.supply_volts / 2
            assert abs(ours_there - theirs[node]) < (LOW_VOLTS if is_low else HIGH_VOLTS)
            low += is_low
    assert low > 100


def test_a_key_without_a_diode_is_a_divider() -> None:
    at = Circuit(
        supply_volts=5.0,
        driver_ohm=100.0,
        switch_ohm=900.0,
        drive_pull_ohm=(1e9,),
        sense_pull_ohm=(49_000.0,),
        drop=shockley(FAIRCHILD).drop(),
    )
    found = volts(at, matrix({(0, 0): "none"}).contacts, 0)
    assert found.senses[0] == pytest.approx(0.1, abs=1e-5)  # 5 V / 50 kohm is 0.1 mA, by hand
    assert found.drives[0] == pytest.approx(0.01, abs=1e-5)


def test_a_line_with_no_pressed_key_rests_at_the_supply() -> None:
    of = matrix({(0, 0): "toward", (1, 1): "toward"})
    at = circuit(Random(1), of, FAIRCHILD)
    pressed: list[Contact] = [of.contacts[1]]
    assert volts(at, pressed, 0).senses == pytest.approx([at.supply_volts] * 2, abs=1e-5)


def test_diode_and_resistor_share_what_is_across_them() -> None:
    drop = shockley(FAIRCHILD).drop()
    for across in (0.2, 1.0, 5.0):
        ampere = ampere_through(drop, 20_000.0, across)
        assert drop.volts(ampere) + 20_000.0 * ampere == pytest.approx(across, abs=1e-9)


def test_elimination_solves_what_numpy_solves() -> None:
    import numpy

    chance = Random(5)
    for size in (1, 2, 7, 20):
        rows = [[-chance.random() for _ in range(size)] for _ in range(size)]
        rows = [[(rows[i][j] + rows[j][i]) / 2 for j in range(size)] for i in range(size)]
        for place, row in enumerate(rows):
            row[place] = 0.1 - sum(row)
        right = [chance.random() for _ in range(size)]
        truth = numpy.linalg.solve(numpy.array(rows), numpy.array(right))
        assert solved([list(row) for row in rows], right) == pytest.approx(list(truth), rel=1e-9)
