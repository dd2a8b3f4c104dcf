"""A file that is told where its leads are is right for the board as it is."""

import random
from pathlib import Path

import pytest

from matrixgen.bench.faults.board import board_of
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.faults.observe import Seen, netlist_with
from matrixgen.bench.serial.self_report import Answers
from matrixgen.bench.verdicts.verdict import Verdict, verdict_of
from matrixgen.jobs.examine import examine, examine_text
from matrixgen.jobs.probe import Probed
from tests.examples.shipped import FOLDER, NAMES
from tests.probe.boards import seen_of, suspects_of

FEW = 5


def looks(board, netlist):
    """What each key closes, by the names of pins."""
    return {
        key: {(board.pins[low], board.pins[read]) for low, read in netlist.pressed(place)}
        for place, key in enumerate(board.keys)
    }


def probed(name, *effects):
    examined, board = examine(str(FOLDER / name / f"{name}.keys")), suspects_of(name).board
    cause = Explanation(effects)
    return Probed(
        design=examined.design,
        profile=examined.mounted[0].profile,
        place=0,
        board=board,
        seen=seen_of(netlist_with(board, *effects)),
        verdict=Verdict(causes=(cause,)),
        answers=Answers(chip=examined.mounted[0].profile.chip, facts={}, rises={}),
    )


def after(name, text):
    folder = FOLDER / name
    return board_of(examine_text(str(folder / f"{name}.keys"), text, folder).mounted[0])


@pytest.mark.few(8)
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("what", ["swapped", "moved"])
def test_the_cured_file_says_what_the_bench_sees(name, what):
    every = [one.effect for one in suspects_of(name).all if one.effect.what == what]
    effects = [one for one in every if what == "swapped" or len(one.lines) == 1]
    for effect in random.Random(name).sample(effects, min(FEW, len(effects))):
        found = probed(name, effect)
        board = after(name, found.cured_text(found.verdict.causes[0]))
        told = looks(board, Netlist(board))
        assert told == looks(found.board, netlist_with(found.board, effect)), effect


def test_wires_that_are_all_one_pin_further_are_found_and_told_to_the_file():
    name, suspects = "heron-12", suspects_of("heron-12")
    spare = suspects.board.spare[0]
    moves = {
        (one.effect.lines[0], *one.effect.pins): one.effect
        for one in suspects.all
        if one.effect.what == "moved"
    }
    shifted = [moves[3, 4], moves[4, 5], moves[5, spare]]
    netlist = netlist_with(suspects.board, *shifted)
    verdict = verdict_of(suspects, seen_of(netlist))
    assert set(verdict.causes[0].effects) == set(shifted)
    board = after(name, probed(name, *shifted).cured_text(verdict.causes[0]))
    assert looks(board, Netlist(board)) == looks(suspects.board, netlist)


def test_only_pins_change_in_the_file():
    swapped = next(
        one.effect for one in suspects_of("heron-12").all if one.effect.what == "swapped"
    )
    found = probed("heron-12", swapped)
    before = Path(FOLDER / "heron-12" / "heron-12.keys").read_text(encoding="utf-8")
    text = found.cured_text(found.verdict.causes[0])
    pairs = zip(before.splitlines(), text.splitlines(), strict=True)
    lines = [(old.split(), new.split()) for old, new in pairs if old != new]
    assert len(lines) == 2
    for old, new in lines:
        assert [one for one, other in zip(old, new, strict=True) if one != other] == [old[3]]


def test_two_wires_on_one_pin_have_no_edit():
    suspects = suspects_of("heron-12")
    effect = next(
        one.effect
        for one in suspects.all
        if one.effect.what == "moved" and len(one.effect.lines) == 2
    )
    found = probed("heron-12", effect)
    assert found.cured_text(found.verdict.causes[0]) is None


@pytest.mark.parametrize("what", ["open", "off", "joined", "diode"])
def test_what_takes_the_iron_has_no_edit(what):
    effect = next(one.effect for one in suspects_of("heron-12").all if one.effect.what == what)
    found = probed("heron-12", effect)
    assert found.cured_text(found.verdict.causes[0]) is None
    assert isinstance(found.seen, Seen)
