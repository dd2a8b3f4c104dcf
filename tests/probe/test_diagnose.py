"""The verdict names the faults there are, all that look like them, and nothing else.

What is soldered comes from the second model; what is named is played through it again.
"""

import random
from collections import Counter, defaultdict
from functools import cache

import pytest

from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import Seen, netlist_with
from matrixgen.bench.verdicts.diagnose import explanations
from tests.amounts import IS_LONG, amount
from tests.examples.shipped import NAMES
from tests.probe.as_slips import every_set, sets_of
from tests.probe.boards import (
    EIGHT,
    SMALL,
    TINY,
    named,
    plan,
    seen_of,
    seen_with,
    slips,
    suspects_of,
)
from tests.probe.slips import EXCHANGED, sets_of_slips

LOOKS = amount("MATRIXGEN_LOOKS", suite=20, long=2000)
"""How many of the things that a small board can show are looked up."""

SINGLES = amount("MATRIXGEN_SINGLES", suite=2, long=40)
PAIRS = amount("MATRIXGEN_DOUBLES", suite=1, long=40)
LARGE = 60
"""Keys of an example whose verdicts take seconds."""

FOUR = ("heron-12", "knot-21", "whimbrel-34", "godwit-46")
PAIRS_OF_FOUR = amount("MATRIXGEN_DOUBLES", suite=3, long=2000)
"""How many of an example's slips and pairs are tried; `tests.bench.faults` counts more."""


def look(seen, pressed=None):
    keys = seen.keys if pressed is None else pressed
    return seen.rest, tuple(seen.keys[key] for key in keys)


def are_swapped(two):
    """Whether both wires are on the pin of the other: they are exchanged, which is one slip."""
    return (
        len(two) == 2
        and {one.kind for one in two} == {"lead on taken pin"}
        and two[0].at == two[1].at[::-1]
    )


@cache
def every_look(name):
    """What the bench sees of every set of one or two slips."""
    sets = sets_of_slips(plan(name), slips(name))
    return [(these, seen_with(name, these)) for these in sets]


def by_brute_force(name, pressed):
    """What the bench can see, and the sets of one or two slips that show it, none of them idle.

    `pressed` are the places of the keys that are.
    """
    found, single = defaultdict(set), defaultdict(set)
    healthy = look(seen_of(Netlist(suspects_of(name).board)), pressed)
    for these, seen in every_look(name):
        shown = look(seen, pressed)
        if len(these) == 1:
            single[shown].update(these)
        is_idle = len(these) == 2 and not single[shown].isdisjoint(these)
        if shown != healthy and not is_idle and not are_swapped(these):
            found[shown].add(frozenset(these))
    return found


@pytest.mark.parametrize("name", [TINY, *((*SMALL, EIGHT) if IS_LONG else ())])
def test_the_verdict_has_every_explanation_and_no_other(name):
    suspects = suspects_of(name)
    places = range(len(suspects.board.keys))
    every = by_brute_force(name, places)
    for seen in random.Random(name).sample(sorted(every, key=repr), min(LOOKS, len(every))):
        found = explanations(suspects, Seen(seen[0], dict(zip(places, seen[1], strict=True))))
        assert every_set(suspects.board, found) == every[seen]


@pytest.mark.parametrize("pressed", [(0, 1, 2), (0, 3), (1,)])
def test_the_same_holds_where_not_every_key_was_pressed(pressed):
    """Two exchanges are looked for only among keys that were pressed."""
    suspects, every = suspects_of(TINY), by_brute_force(TINY, pressed)
    for seen in random.Random(1).sample(sorted(every, key=repr), min(LOOKS // 4, len(every))):
        found = explanations(suspects, Seen(seen[0], dict(zip(pressed, seen[1], strict=True))))
        named_sets = every_set(suspects.board, found)
        assert not_exchanged_twice(named_sets) == not_exchanged_twice(every[seen])


def not_exchanged_twice(sets):
    return {one for one in sets if sum(slip.kind == EXCHANGED for slip in one) < 2}


def one_of_each_kind(name, count):
    """Some slips of every kind, of which one board has each by itself."""
    rng, by_kind = random.Random(name), defaultdict(list)
    for slip in of_one_fault(name):
        by_kind[slip.kind].append(slip)
    for kind in sorted(by_kind):
        yield from rng.sample(by_kind[kind], min(count, len(by_kind[kind])))


@pytest.mark.few(2)
@pytest.mark.parametrize("name", NAMES)
def test_a_slip_of_an_example_is_in_its_verdict_and_all_of_it_would_look_so(name):
    suspects = suspects_of(name)
    every = list(one_of_each_kind(name, 1 + SINGLES // 3))
    few = 1 if len(suspects.board.keys) > LARGE else SINGLES
    tried = every if IS_LONG else random.Random(name).sample(every, few)
    for slip in tried:
        seen = seen_with(name, [slip])
        found = explanations(suspects, seen)
        if found[0].size:
            assert is_among(name, [slip], found), named([slip])
        for cause in found[:4]:
            shown = {look(seen_with(name, these)) for these in sets_of(suspects.board, cause)}
            assert shown == {look(seen)}, cause


def is_among(name, these, found):
    """Whether a set of slips is in a verdict, or a part of it that shows all that it shows."""
    board, true = suspects_of(name).board, set(these)
    return any(one <= true for cause in found for one in sets_of(board, cause))


def of_one_fault(name):
    """The slips but for those that are two faults."""
    return [one for one in slips(name) if one.kind != "leads on one pin"]


@pytest.mark.parametrize("name", NAMES if IS_LONG else FOUR)
def test_what_can_be_seen_of_two_slips_is_in_the_verdict(name):
    suspects, rng = suspects_of(name), random.Random(name)
    for _ in range(PAIRS_OF_FOUR if name in FOUR else PAIRS):
        these = rng.sample(of_one_fault(name), 2)
        seen = seen_with(name, these)
        if seen:
            assert is_among(name, these, explanations(suspects, seen)), named(these)


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


def test_a_key_at_the_place_of_one_that_was_not_pressed_is_an_exchange():
    suspects = suspects_of("heron-12")
    healthy = suspects.healthy
    found = explanations(suspects, Seen(frozenset(), {0: healthy[5], 3: healthy[3]}))
    assert (0, 5) in {swap for each in found for swap in each.exchanges}


def test_every_kind_of_slip_is_tried_on_an_example():
    tried = Counter(one.kind for one in one_of_each_kind("knot-21", 1))
    assert len(tried) == len({one.kind for one in of_one_fault("knot-21")}) >= 20
