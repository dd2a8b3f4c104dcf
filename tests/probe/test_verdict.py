"""Verdicts on more than two faults, and what is said of faults."""

import random

import pytest

from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.fault import RARITY
from matrixgen.bench.faults.fault_words import ADVICE, says_of
from matrixgen.bench.faults.observe import Seen, netlist_with
from matrixgen.bench.verdicts.verdict import verdict_of
from matrixgen.bench.verdicts.words import parts_of
from matrixgen.cli.probe_text import verdict_lines
from tests.amounts import amount
from tests.examples.shipped import NAMES
from tests.probe.as_slips import sets_of
from tests.probe.boards import seen_of, seen_with, slips, suspects_of
from tests.probe.test_words import probed


def test_a_verdict_on_a_whole_board_is_that_nothing_is_wrong():
    suspects = suspects_of("heron-12")
    verdict = verdict_of(suspects, seen_of(netlist_with(suspects.board)))
    assert verdict.is_whole and {cause.size for cause in verdict.causes} == {0}


@pytest.mark.few(2)
@pytest.mark.parametrize("name", NAMES)
def test_five_faults_of_keys_are_all_named(name):
    suspects, rng = suspects_of(name), random.Random(name)
    of_keys = [one.effect for one in suspects.all if one.effect.what in ("open", "diode")]
    keys = rng.sample(range(len(suspects.board.keys)), 5)
    true = [rng.choice([one for one in of_keys if one.keys == (key,)]) for key in keys]
    verdict = verdict_of(suspects, seen_of(netlist_with(suspects.board, *true)))
    assert verdict.unexplained == ()
    assert set(verdict.causes[0].effects) == set(true)


THREES = amount("MATRIXGEN_THREES", suite=12, long=200)


def test_most_sets_of_three_slips_are_named():
    name, rng = "heron-12", random.Random(3)
    kinds = sorted({one.kind for one in slips(name)} - {"leads on one pin"})
    count = named = explained = 0
    for _ in range(THREES):
        three = [
            rng.choice([one for one in slips(name) if one.kind == kind])
            for kind in rng.sample(kinds, 3)
        ]
        seen = seen_with(name, three)
        if seen:
            verdict, board = verdict_of(suspects_of(name), seen), suspects_of(name).board
            count, explained = count + 1, explained + (not verdict.unexplained)
            named += not verdict.unexplained and any(
                one <= set(three) for cause in verdict.causes for one in sets_of(board, cause)
            )
    assert named / count >= 50 / 58, (named, count)
    assert explained / count >= 0.95, (explained, count)


def test_what_explains_only_a_part_says_of_how_many_keys():
    suspects = suspects_of("heron-12")
    seen = seen_with("heron-12", [next(one for one in slips("heron-12") if one.kind == "lead")])
    odd = frozenset((low, read) for low in range(5) for read in (6, 7) if low != read)
    broken = [key for key, pairs in seen.keys.items() if not pairs]
    other = next(key for key in seen.keys if key not in broken)
    lines = list(verdict_lines(probed(Seen(seen.rest, seen.keys | {other: odd}))))
    assert f"this explains {len(broken)} of {len(broken) + 1} keys:" in lines
    assert f"not explained: `{suspects.board.keys[other]}`" in lines


def test_what_no_three_faults_explain_is_said_to_be_unexplained():
    suspects = suspects_of("heron-12")
    seen = seen_of(netlist_with(suspects.board))
    odd = frozenset((low, read) for low in range(5) for read in (6, 7) if low != read)
    verdict = verdict_of(suspects, Seen(seen.rest, seen.keys | {0: odd, 5: odd, 11: odd}))
    assert not verdict.is_whole
    keys = suspects.board.keys
    assert verdict.unexplained == (keys[0], keys[5], keys[11])


def said(suspects, *effects):
    return [part.says for part in parts_of(suspects.board, Explanation(effects))]


def test_what_looks_alike_is_said_together():
    suspects = suspects_of("whimbrel-34")
    place = suspects.board.place_of["F"]
    dead = next(one.effect for one in suspects.all if one.effect.keys == (place,))
    assert said(suspects, dead) == [
        "`F` is open: its joint on `c3`, its joint on `home`, its diode or its switch"
    ]


def test_the_last_key_of_a_wire_may_have_its_wire_broken():
    suspects = suspects_of("whimbrel-34")
    place = suspects.board.place_of["Z"]
    dead = next(one.effect for one in suspects.all if one.effect.keys == (place,))
    [words] = said(suspects, dead)
    assert "the wire of `c0` between `A` and `Z`" in words


def test_each_kind_of_fault_has_words():
    suspects = suspects_of("heron-12")
    faults = {fault.kind: fault for one in suspects.all for fault in one.effect.faults}
    assert RARITY.keys() == ADVICE.keys() == faults.keys() | {"diode extra", "keys exchanged"}
    for fault in faults.values():
        named = (*fault.keys, *fault.lines, *fault.pins)
        assert says_of(fault) and "{" not in says_of(fault)
        assert all(f"`{name}`" in says_of(fault) for name in named), says_of(fault)
