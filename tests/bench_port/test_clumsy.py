"""People at the bench who slip: what they end with is what a careful one ends with.

A slip is drawn at random each time that a key is asked for, or pressed in any order; the program
runs as such, on a pseudo-terminal.
"""

from random import Random

import pytest

from matrixgen.bench.faults.netlist import Netlist
from tests.amounts import amount
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.examples.shipped import FOLDER
from tests.probe.boards import small_board, small_text, suspects_of
from tests.probe.test_learn import without_wiring

PEOPLE = amount("MATRIXGEN_CLUMSY_PEOPLE", suite=3, long=40)
KEYS = "ABCDE"


class Clumsy:
    """Answers for each key that `learn` asks for, with a slip each other time."""

    def __init__(self, seed):
        self.chance, self.mends, self.pressed = Random(seed), [], None
        self.slips = set()

    def __call__(self, key):
        if self.mends:
            return self.mends.pop()
        slip = self.chance.choice(list(SLIPS)) if self.chance.random() < 0.6 else None
        before, does = self.pressed, None
        if slip is not None and before not in (None, key):
            self.slips.add(slip)
            does = SLIPS[slip](self, before, key)
        if not isinstance(does, str):
            self.pressed = key
        return does


def pressed_the_last_one_again(_, before, key):
    return [before, key]


def held_two_keys(_, before, key):
    return [(before, key), key]


def typed_nonsense(_, before, key):
    return ["\nnonsense", key]


def went_back(_, before, key):
    return ":back"


def pressed_and_took_it_back(person, before, key):
    if key != KEYS[-1]:
        person.mends = [":again"]


def passed_over_and_went_back(person, before, key):
    if key != KEYS[-1]:
        person.mends = [":back"]
        return ":skip"
    return None


def said_no_response(person, before, key):
    if key != KEYS[-1]:
        person.mends = [":again"]
        return ""
    return None


def named_an_earlier_one(_, before, key):
    return before


SLIPS = {
    one.__name__: one
    for one in (
        pressed_the_last_one_again,
        held_two_keys,
        typed_nonsense,
        went_back,
        pressed_and_took_it_back,
        passed_over_and_went_back,
        said_no_response,
        named_an_earlier_one,
    )
}


def learned(folder, name, answer):
    file = folder / f"{name}.keys"
    file.write_text(without_wiring(small_text("with diodes")), encoding="utf-8")
    with StandIn(Netlist(small_board("with diodes")), "ATmega32U4") as bench:
        status, output, said = at_the_bench(bench, ["learn", str(file)], answer=answer)
    assert status == 0, output + said
    return file.read_text("utf-8")


@pytest.fixture(scope="module")
def careful(tmp_path_factory):
    return learned(tmp_path_factory.mktemp("careful"), "small", lambda key: None)


@pytest.mark.parametrize("seed", range(PEOPLE))
def test_what_clumsy_people_teach_is_what_careful_ones_do(tmp_path, careful, seed):
    assert learned(tmp_path, "small", Clumsy(seed)) == careful


def test_every_slip_is_made():
    made = set()
    for seed in range(200):
        person = Clumsy(seed)
        for key in KEYS:
            person(key)
        made |= person.slips
    assert made == set(SLIPS)


def clumsy_presses(chance, keys):
    """Every key once, some twice, and now and then a name that is a slip."""
    *before, last = chance.sample(keys, len(keys))
    presses = []
    for key in before:
        presses.append(key)
        slip = chance.random()
        if slip < 0.1:
            presses.append(key)
        elif slip < 0.2:
            other = chance.choice([one for one in keys if one != key])
            presses += [f"\n{other}", key]
    return [*presses, last]


@pytest.mark.parametrize("seed", range(PEOPLE))
def test_what_clumsy_people_probe_is_what_careful_ones_do(seed):
    heron = FOLDER / "heron-12" / "heron-12.keys"
    board = suspects_of("heron-12").board
    presses = clumsy_presses(Random(seed), board.keys)
    with StandIn(Netlist(board), "AT90USB162") as bench:
        status, output, said = at_the_bench(bench, ["probe", str(heron)], presses)
    assert status == 0, output + said
    assert "nothing is wrong" in output
