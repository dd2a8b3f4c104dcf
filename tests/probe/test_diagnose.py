"""The verdict names the faults there are, all that look like them, and nothing else."""

import random
from collections import defaultdict
from itertools import combinations, permutations

import pytest

from matrixgen.bench.diagnose import explanations
from matrixgen.bench.observe import Seen, netlist_with
from tests.amounts import amount
from tests.examples.shipped import NAMES
from tests.probe.boards import SMALL, seen_of, suspects_of

SINGLES = amount("MATRIXGEN_SINGLES", suite=6, long=60)
PAIRS = amount("MATRIXGEN_DOUBLES", suite=4, long=40)
"""How many of an example's faults are tried; `python -m tests.bench.faults` tries all."""


def look(seen):
    return seen.rest, tuple(seen.keys.values())


def by_brute_force(suspects):
    """What the bench sees, and the sets of one or two faults that show it, none of them idle."""
    board, effects = suspects.board, [one.effect for one in suspects.all]
    swaps = list(combinations(range(len(board.keys)), 2))
    healthy = look(seen_of(netlist_with(board)))
    found = defaultdict(set)
    for one in (*effects, *swaps):
        shown = look(shown_with(board, one))
        if shown != healthy:
            found[shown].add(frozenset([one]))
    single = {next(iter(one)): shown for shown, sets in found.items() for one in sets}
    for one, other in permutations((*effects, *swaps), 2):
        shown = look(shown_with(board, one, other))
        if are_one_break(one, other):
            continue
        if shown != healthy and shown not in (single.get(one), single.get(other)):
            found[shown].add(frozenset([one, other]))
    return found


def are_one_break(one, other):
    return (
        not isinstance(one, tuple) and not isinstance(other, tuple) and one.faults == other.faults
    )


def shown_with(board, *faults):
    effects = [one for one in faults if not isinstance(one, tuple)]
    swaps = [one for one in faults if isinstance(one, tuple)]
    return seen_of(netlist_with(board, *effects), *swaps)


@pytest.mark.parametrize("name", SMALL)
def test_the_verdict_has_every_explanation_and_no_other(name):
    suspects = suspects_of(name)
    every = by_brute_force(suspects)
    shown = sorted(every, key=repr)
    for seen in random.Random(name).sample(shown, min(150, len(shown))):
        found = explanations(suspects, Seen(seen[0], dict(enumerate(seen[1]))))
        assert {frozenset([*one.effects, *one.exchanges]) for one in found} == every[seen]


@pytest.mark.parametrize("name", NAMES)
def test_a_fault_of_an_example_is_in_its_verdict_and_all_of_it_would_look_so(name):
    suspects = suspects_of(name)
    for one in random.Random(name).sample(suspects.all, SINGLES):
        seen = seen_of(netlist_with(suspects.board, one.effect))
        found = explanations(suspects, seen)
        assert any(each.effects == (one.effect,) for each in found)
        for each in found[:20]:
            netlist = netlist_with(suspects.board, *each.effects)
            assert seen_of(netlist, *each.exchanges) == seen


@pytest.mark.parametrize("name", NAMES)
def test_what_can_be_seen_of_two_faults_is_in_the_verdict(name):
    suspects = suspects_of(name)
    rng = random.Random(name)
    for _ in range(PAIRS):
        one, other = rng.sample([one.effect for one in suspects.all], 2)
        seen = seen_of(netlist_with(suspects.board, one, other))
        assert any(
            set(each.effects) <= {one, other} and not each.exchanges
            for each in explanations(suspects, seen)
        )


def test_a_board_that_is_whole_has_nothing_to_explain():
    suspects = suspects_of("heron-12")
    [nothing] = explanations(suspects, seen_of(netlist_with(suspects.board)))
    assert nothing.size == 0


def test_a_key_that_was_not_pressed_rules_nothing_out():
    suspects = suspects_of("heron-12")
    effect = next(one.effect for one in suspects.all if one.effect.what == "off")
    seen = seen_of(netlist_with(suspects.board, effect))
    pressed = {key: pairs for key, pairs in seen.keys.items() if key not in effect.keys[1:]}
    found = explanations(suspects, Seen(seen.rest, pressed))
    assert any(each.effects == (effect,) for each in found)
    assert any(each.effects[0].what == "open" for each in found if each.size == 1)
