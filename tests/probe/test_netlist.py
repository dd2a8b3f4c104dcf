"""The netlist of the bench beside one of every joint, on `networkx`."""

import random

import pytest

from matrixgen.bench.observe import netlist_with
from tests.examples.shipped import NAMES
from tests.probe.boards import SMALL, seen_of, suspects_of
from tests.probe.every_joint import Metal

PAIRS = 12


def leads(board, effect):
    """The lines whose lead has to be at the last key for a break to cut off what it cuts off."""
    if effect.what != "cut" or effect.keys[0] != board.visits[effect.lines[0]][0]:
        return frozenset()
    return frozenset([board.name(effect.lines[0])])


def agree(board, *effects):
    """Whether every fault of each effect shows what the effect does."""
    last = frozenset().union(*(leads(board, one) for one in effects))
    expected = seen_of(netlist_with(board, *effects))
    faults = [one.faults[0] for one in effects]
    return Metal(board, faults, last).seen() == expected


def can_be_together(one, other):
    """Whether not both are of one wire, whose lead would be on both ends, or of one diode."""
    alike = one.what == other.what and one.what in ("cut", "diode")
    return not alike or (one.lines if one.what == "cut" else one.keys) != (
        other.lines if one.what == "cut" else other.keys
    )


@pytest.mark.parametrize("name", SMALL)
def test_pairs_of_faults_of_a_small_board_look_as_their_metal_does(name):
    suspects = suspects_of(name)
    effects = [one.effect for one in suspects.all]
    shuffled = random.Random(name).sample(effects, 30)
    for one in shuffled:
        assert agree(suspects.board, one), one
        for other in effects[::7]:
            if can_be_together(one, other):
                assert agree(suspects.board, one, other), (one, other)


@pytest.mark.parametrize("name", SMALL)
def test_faults_of_one_effect_look_alike(name):
    board = suspects_of(name).board
    for effect in (one.effect for one in suspects_of(name).all if one.effect.what == "open"):
        expected = seen_of(netlist_with(board, effect))
        for fault in effect.faults:
            lines = fault.lines if fault.kind == "hop" else ()
            last = frozenset(lines if fault.keys[0] == board.keys[effect.keys[0]] else ())
            found = Metal(board, [fault], last).seen()
            assert found == expected, fault


@pytest.mark.parametrize("name", NAMES)
def test_some_pairs_of_faults_of_each_example_look_as_their_metal_does(name):
    suspects = suspects_of(name)
    rng = random.Random(name)
    count = 2 if len(suspects.board.keys) > 60 else 5
    for _ in range(count):
        one, other = rng.sample([one.effect for one in suspects.all], 2)
        assert agree(suspects.board, one, other), (one, other)
