"""The product's netlist beside the second model, in which every joint is a node."""

import random
from itertools import product

import pytest

from matrixgen.bench.faults.effect import are_possible, worlds_of
from matrixgen.bench.faults.effects_of import effects_of, halves_of
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import netlist_with
from tests.amounts import amount
from tests.examples.shipped import NAMES
from tests.probe.as_slips import slips_of
from tests.probe.boards import SMALL, named, plan, seen_of, seen_with, slips, suspects_of
from tests.probe.slips import EXCHANGED, made_for, soldered

SINGLES = amount("MATRIXGEN_EVERY_FAULT", suite=20, long=100_000)
PAIRS = amount("MATRIXGEN_NETLISTS", suite=30, long=2000)
LARGE = 60
"""Keys of an example from which fewer of its pairs are tried: each takes long."""


def differing(name, *effects):
    """The first slips behind some effects that look otherwise in the second model."""
    expected = seen_of(netlist_with(suspects_of(name).board, *effects))
    for faults in worlds_of(effects):
        for these in product(*map(slips_of, faults)):
            if seen_with(name, these) != expected:
                return named(these)
    return None


@pytest.mark.parametrize("name", SMALL)
def test_each_fault_looks_as_its_metal_does(name):
    board = suspects_of(name).board
    assert [found for one in effects_of(board) if (found := differing(name, one))] == []


@pytest.mark.few(5)
@pytest.mark.parametrize("name", NAMES)
def test_faults_of_each_example_look_as_their_metal_does(name):
    effects = effects_of(suspects_of(name).board)
    tried = random.Random(name).sample(effects, min(SINGLES, len(effects)))
    assert [found for one in tried if (found := differing(name, one))] == []


@pytest.mark.parametrize("name", [*SMALL, *NAMES])
def test_two_faults_look_as_their_metal_does(name):
    board, rng = suspects_of(name).board, random.Random(name)
    effects = effects_of(board)
    count = PAIRS // (10 if len(board.keys) > LARGE else 5 if name in NAMES else 1)
    pairs = [rng.sample(effects, 2) for _ in range(count)]
    wrong = [differing(name, *pair) for pair in pairs if are_possible(pair) and not is_idle(pair)]
    assert [one for one in wrong if one] == []


def is_idle(pair):
    """Whether a leg is moved of a key that is open: it may be open where the leg was."""
    return {one.what for one in pair} == {"leg", "open"} and pair[0].keys == pair[1].keys


def test_one_open_half_of_a_key_whose_middle_touches_looks_as_its_metal_does():
    name = "with diodes"
    board = suspects_of(name).board
    touching = [one for one in effects_of(board) if one.what in ("middle", "middles")]
    pairs = [
        (one, half)
        for one in touching
        for key in one.keys
        for half in halves_of(board, key, one.side)
    ]
    assert len(pairs) > 50
    assert [found for pair in pairs if (found := differing(name, *pair))] == []


@pytest.mark.parametrize("name", SMALL)
def test_keys_held_down_together_look_as_their_metal_does(name):
    board, rng = suspects_of(name).board, random.Random(name)
    for effect in rng.sample(effects_of(board), 80):
        these = slips_of(effect.faults[0])[:1]
        real = soldered(plan(name), made_for(these), these)
        netlist = netlist_with(board, effect)
        for _ in range(4):
            held = rng.sample(range(len(board.keys)), rng.choice([2, 3]))
            pairs = board.numbers_of(real.pairs([board.keys[key] for key in held]))
            assert netlist.pressed(*held) == pairs - netlist.at_rest(), (named(these), held)


@pytest.mark.parametrize("name", SMALL)
def test_every_slip_is_a_fault_that_the_product_knows(name):
    board = suspects_of(name).board
    known = {slip for one in effects_of(board) for fault in one.faults for slip in slips_of(fault)}
    of_two = {"leads on one pin", EXCHANGED}
    assert {one.kind for one in slips(name) if one not in known} == of_two


def test_what_the_bench_prints_is_what_the_page_says():
    real = soldered(plan("with diodes"), made_for(()), ())
    assert real.prints() == []
    assert real.prints(["A"]) == ["PB4 > PD0 closed"]
    assert Netlist(suspects_of("with diodes").board).pressed(0) == {(0, 3)}
