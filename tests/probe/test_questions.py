"""What is asked of a maker to tell explanations apart, and what a meter really shows."""

import random

import pytest

from matrixgen.bench.dialogues.asking import Asking
from matrixgen.bench.faults.effect import worlds_of
from matrixgen.bench.faults.effects_of import effects_of
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.fault import Fault
from matrixgen.bench.faults.netlist import NONE
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.bench.questions.meter import ASKS, measurements_of
from matrixgen.bench.questions.meter_answers import is_yes
from matrixgen.bench.questions.questions import Question, Questions, World, worlds
from matrixgen.bench.verdicts.verdict import verdict_of
from tests.amounts import amount
from tests.probe.as_slips import slips_of
from tests.probe.asking import asked_until_one_is_left
from tests.probe.boards import SMALL, named, plan, seen_with, slips, suspects_of
from tests.probe.slips import made_for, soldered
from tests.probe.soldered import GROUND

TRIED = amount("MATRIXGEN_QUESTIONS", suite=12, long=400)


def beeps(real, measurement):
    """What a meter shows between two points of metal in the second model; None if it is a look."""
    names = measurement.names
    points = {
        "leg": lambda key, wire: (real.leg(key, wire), ("wire", wire, key)),
        "hop": lambda one, other, wire: (("wire", wire, one), ("wire", wire, other)),
        "lead": lambda wire, pin: (real.lead(wire), ("pad", pin)),
        "wire to pin": lambda wire, pin: (real.lead(wire), ("pad", pin)),
        "wire to leg": lambda key, own, wire: (real.leg(key, own), real.lead(wire)),
        "piece": lambda key, own, wire: (("wire", own, key), real.lead(wire)),
        "middle": lambda key, wire: (("middle", key), real.lead(wire)),
        "middles": lambda one, other: (("middle", one), ("middle", other)),
        "ground": lambda wire: (real.lead(wire), GROUND),
    }
    if measurement.what not in points:
        return None
    return real.beeps(*points[measurement.what](*names))


@pytest.mark.parametrize("name", SMALL)
def test_a_meter_shows_of_each_fault_what_is_expected(name):
    board, rng = suspects_of(name).board, random.Random(name)
    effects = effects_of(board)
    every = [fault for effect in effects for fault in effect.faults]
    tests = sorted({test for fault in every for test in measurements_of(fault)}, key=repr)
    for effect in rng.sample(effects, 100):
        netlist = netlist_with(board, effect)
        for (fault,) in worlds_of([effect]):
            these = slips_of(fault)[:1]
            real = soldered(plan(name), made_for(these), these)
            for test in {*rng.sample(tests, 20), *measurements_of(fault)}:
                shown = beeps(real, test)
                if shown is not None:
                    assert is_yes(test, board, netlist, [fault]) == shown, (named(these), test)


def test_every_kind_of_fault_can_be_measured_or_seen_and_each_measurement_has_words():
    for name in SMALL:
        board = suspects_of(name).board
        faults = [fault for one in effects_of(board) for fault in one.faults]
        faults.append(Fault(kind="keys exchanged", keys=("A", "B")))
        for fault in faults:
            for test in measurements_of(fault):
                assert "{" not in test.asks and test.asks.endswith("?")
                assert test.what in ASKS
            assert measurements_of(fault)


def test_questions_end_with_the_true_explanation():
    name, rng = "heron-12", random.Random(1)
    board = suspects_of(name).board
    for slip in rng.sample([one for one in slips(name) if one.kind != "leads on one pin"], TRIED):
        seen = seen_with(name, [slip])
        every = worlds(board, verdict_of(suspects_of(name), seen).causes)
        true = [w for w in every if len(w.faults) == 1 and slip in called(w.faults[0])]
        if true:
            assert left_of(board, every, seen, true[0]) == [true[0]], named([slip])


def left_of(board, every, seen, true):
    """What is left when each question is answered as it is in one world."""
    questions = Questions(board, every, seen)
    asked_until_one_is_left(questions, lambda one: questions.answer(one, true))
    return questions.left


def called(fault):
    return [] if fault.kind == "keys exchanged" else slips_of(fault)


def effect_of(name, what, **fields):
    return next(
        one
        for one in effects_of(suspects_of(name).board)
        if one.what == what and all(getattr(one, key) == value for key, value in fields.items())
    )


def test_a_question_that_halves_what_is_left_comes_first():
    name = "with diodes"
    board = suspects_of(name).board
    dead = effect_of(name, "open", keys=(0,))
    left = [World(Explanation((dead,)), faults) for faults in worlds_of([dead])]
    seen = seen_with(name, [slips_of(left[0].faults[0])[0]])
    question = Questions(board, left, seen).next()
    assert question.kind == "measure"


def test_after_a_measurement_nothing_is_pressed():
    name = "with diodes"
    board, seen = suspects_of(name).board, seen_with(name, [])
    effects = [effect_of(name, "joined", lines=(0, 1)), effect_of(name, "bridged", pins=(0, 1))]
    left = [world for one in effects for world in worlds(board, [Explanation((one,))])]
    questions = Questions(board, left, seen)
    asked = asked_until_one_is_left(questions, lambda one: questions.answer(one, left[1]))
    assert [one.kind for one in asked] == ["measure"]
    assert questions.left == [left[1]]


def test_a_board_on_which_all_is_right_is_asked_nothing():
    suspects = suspects_of("with diodes")
    asking = Asking(suspects, NONE)
    said = [line for key in range(5) for line in asking.pressed(suspects.healthy[key])]
    assert asking.is_over, said
    assert asking.question is None and asking.verdict.is_whole


def test_two_keys_are_held_until_enter_is_typed():
    suspects = suspects_of("with diodes")
    asking = Asking(suspects, NONE)
    ghost = effect_of("with diodes", "diode", keys=(0,), diode="none")
    seen = netlist_with(suspects.board, ghost)
    causes = [Explanation((ghost,)), Explanation((effect_of("with diodes", "middles"),))]
    left = worlds(suspects.board, causes)
    asking._questions = Questions(suspects.board, left, asking.result)
    asking.question = Question("hold", (0, 1))
    assert asking.holds
    assert "type Enter" in "".join(asking.pressed(seen.pressed(0)))
    said = [*asking.pressed(seen.pressed(0, 1)), *asking.typed("")]
    assert "1 explanation left" in said
    assert asking.is_over
