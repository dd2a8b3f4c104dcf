"""Knobs turned by time, with contacts that bounce: what is counted is what the shaft did."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from matrixgen.behaviour.knobs import MOST_WAITING
from matrixgen.model import Keyboard, Media, Press, TapHold
from matrixgen.model.actions import Action, HoldLayer, InTurn, LatchLayer, Nothing
from tests.amounts import amount
from tests.firmware.build_model import keyboard
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.pads import LEFT_SHIFT, TWO
from tests.firmware.test_engine_and_oracle import Pair
from tests.firmware.turning import Shaft, contacts_at
from tests.reports import any_number

TURNS = amount("MATRIXGEN_TURNS", suite=3, long=600)
A, LEFT, RIGHT = 0x04, 0x50, 0x4F
UP = any_number(0)
SCAN_US = (40, 67, 110)
"""What a scan takes on the emulated chips (`python -m tests.bench.chip`), and more."""
MOST_A_SECOND = 600


def one_knob(states: int) -> Keyboard:
    base: dict[str, Action] = {"A": Press(A), "jog.left": Press(LEFT), "jog.right": Press(RIGHT)}
    return keyboard([["A"]], {"base": base}, knobs={"jog": states})


@pytest.fixture(scope="module", params=(2, 4, 8))
def states(request: pytest.FixtureRequest) -> int:
    return int(request.param)


@pytest.fixture(scope="module")
def jog(states: int, tmp_path_factory: pytest.TempPathFactory) -> HostKeyboard:
    board = one_knob(states)
    library = shared_library(board, tmp_path_factory.mktemp("jog"))
    return HostKeyboard(library, host_view(board))


def counted(reports: Sequence[bytes]) -> int:
    """Return steps to the right less those to the left; each goes down and up."""
    steps = {any_number(0, RIGHT): 1, any_number(0, LEFT): -1, UP: 0}
    assert all(steps[one] == 0 or steps[two] == 0 for one, two in pairwise(reports))
    return sum(steps[one] for one in reports)


def play(jog: HostKeyboard, shaft: Shaft, scan_us: float) -> list[bytes]:
    """Scan while the shaft does what it did, and until all is reported; a poll a millisecond."""
    taken, at_us, ms = [], 0.0, 0
    moves = iter([*shaft.moves])
    move = next(moves, None)
    while move is not None or jog_waits(taken) or at_us < shaft.at_us + 1e6:
        while move is not None and move.at_us <= at_us:
            jog.turn(0, move.contacts)
            move = next(moves, None)
        jog.step()
        at_us += scan_us
        if at_us >= 1000 * (ms + 1):
            ms += 1
            jog.advance(1)
            taken += [report] if (report := jog.take()) else []
    return taken


def jog_waits(taken: Sequence[bytes]) -> bool:
    return bool(taken) and taken[-1] != UP


def random_turning(states: int, chance: Random) -> Shaft:
    """Turn on and back by any number of states, slowly and as fast as 600 steps a second."""
    shaft = Shaft(states, chance)
    for _ in range(chance.randrange(3, 12)):
        fastest = 1e6 / MOST_A_SECOND / states
        state_us = chance.choice((fastest, fastest * chance.uniform(1, 8), 10_000.0))
        way = chance.choice((-1, 1))
        for _ in range(chance.randrange(1, 12 * states)):
            shaft.turn(way, state_us)
        if chance.random() < 0.3:
            shaft.rest(30_000)
    return shaft


@pytest.mark.parametrize("seed", range(TURNS))
def test_steps_up_to_600_a_second_are_those_that_the_shaft_made(
    jog: HostKeyboard, states: int, seed: int
) -> None:
    """Sources of its bounce: see `turning.py`."""
    jog.restart()
    shaft = random_turning(states, Random(seed))
    reports = play(jog, shaft, SCAN_US[seed % len(SCAN_US)])
    assert counted(reports) == shaft.counted
    assert jog.faults() == 0


def settled(jog: HostKeyboard, contacts: int) -> list[bytes]:
    """Read contacts, and let the host take all that follows."""
    jog.turn(0, contacts)
    return list(rest_of(jog))


def rest_of(jog: HostKeyboard) -> Iterator[bytes]:
    for _ in range(4 * MOST_WAITING):
        jog.step()
        if (report := jog.take()) is not None:
            yield report


def test_each_state_that_is_left_and_taken_again_counts_nothing(
    jog: HostKeyboard, states: int
) -> None:
    jog.restart()
    for way in (1, -1):
        for place in range(1, states):
            for at in (*range(way, way * (place + 1), way), *range(way * place, -way, -way)):
                assert settled(jog, contacts_at(at)) == []


@pytest.mark.parametrize("way", [1, -1])
def test_a_step_counts_with_its_last_state_and_a_bounce_there_not_again(
    jog: HostKeyboard, states: int, way: int
) -> None:
    jog.restart()
    seen = [settled(jog, contacts_at(way * place)) for place in range(1, 2 * states + 1)]
    seen += [settled(jog, contacts_at(way * place)) for place in (2 * states - 1, 2 * states) * 3]
    nothing: list[list[bytes]] = [[]] * (states - 1)
    one = [any_number(0, RIGHT if way > 0 else LEFT), UP]
    assert seen == [*nothing, one, *nothing, one, *([[]] * 6)]


@pytest.mark.parametrize("way", [1, -1])
def test_a_state_that_was_missed_is_counted_the_way_that_the_knob_goes(
    jog: HostKeyboard, states: int, way: int
) -> None:
    """Both contacts changed between two readings, which a shaft never does."""
    jog.restart()
    for place in range(1, 2 * states + 1):  # a step tells which way it is going
        settled(jog, contacts_at(way * place))
    seen = [
        one for place in range(2, 4 * states + 1, 2) for one in settled(jog, contacts_at(place))
    ]
    assert counted(seen) == 4 * way


def test_opposite_steps_that_wait_cancel_and_no_more_wait_than_are_said(
    jog: HostKeyboard, states: int
) -> None:
    jog.restart()
    for place in range(1, (MOST_WAITING + 20) * states + 1):
        jog.turn(0, contacts_at(place))
        jog.step()  # the first is given at once, and not taken
    for place in range(7 * states - 1, -1, -1):
        jog.turn(0, contacts_at(place))
        jog.step()
    assert counted([*rest_of(jog)]) == 1 + MOST_WAITING - 7


class Pads:
    """Engine and model of a knob of two states, with keys A, T and N."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, left: Action, right: Action, **keys: Action) -> Pair:
        base: dict[str, Action] = {"A": Press(A), **keys}
        base |= {"jog.left": left, "jog.right": right}
        nav: dict[str, Action] = {"jog.right": Press(RIGHT, LEFT_SHIFT), "A": Press(LEFT)}
        layers = {"base": base, "nav": nav}
        names = [["A", *keys]]
        return Pair(keyboard(names, layers, knobs={"jog": 2}), self.folder)


@pytest.fixture
def pads(tmp_path: Path) -> Iterator[Pads]:
    yield Pads(tmp_path)


def turned(pair: Pair, steps: int) -> None:
    """Turn by so many steps, with a scan after each state, and no time."""
    for _ in range(2 * abs(steps)):
        pair.turn("jog", 1 if steps > 0 else -1)
        pair.step()


def told(pair: Pair, milliseconds: int) -> list[bytes]:
    """Let time pass with a host that takes what there is each millisecond."""
    taken = []
    for _ in range(milliseconds):
        pair.step()
        taken += [report] if (report := pair.take()) else []
        pair.take_media()
        pair.advance(1)
    return taken


def test_a_step_is_two_polls_and_a_key_goes_before_the_steps_that_wait(pads: Pads) -> None:
    pair = pads(Press(LEFT), Press(RIGHT))
    turned(pair, 5)
    pair.close("A", True)
    right, both = any_number(0, RIGHT), any_number(0, A, RIGHT)
    assert told(pair, 4) == [right, UP, any_number(0, A), both]
    assert told(pair, 20) == [any_number(0, A), *([both, any_number(0, A)] * 3)]


def test_a_step_waits_for_what_is_not_decided_and_takes_the_layer_of_it(pads: Pads) -> None:
    pair = pads(Press(LEFT), Press(RIGHT), T=TapHold(Press(0x17), HoldLayer("nav")))
    pair.close("T", True)
    told(pair, 5)
    turned(pair, 1)
    assert told(pair, 150) == []
    assert told(pair, 100) == [any_number(LEFT_SHIFT, RIGHT), UP]


def test_steps_wait_while_a_text_is_typed_and_a_step_that_types_one_is_not_stopped(
    pads: Pads,
) -> None:
    pair = pads(InTurn(TWO), Press(RIGHT))
    turned(pair, -1)
    turned(pair, -1)
    reports = told(pair, 80)
    assert len(reports) == 2 * 2 * len(TWO)


def test_a_step_may_latch_a_layer_which_the_next_one_is_on(pads: Pads) -> None:
    pair = pads(LatchLayer("nav"), Press(RIGHT))
    turned(pair, -1)
    assert told(pair, 5) == []
    turned(pair, 1)
    assert told(pair, 5) == [any_number(LEFT_SHIFT, RIGHT), UP]


@pytest.mark.parametrize("boot", [False, True])
def test_while_nobody_listens_steps_are_lost_and_what_is_down_goes_up(
    pads: Pads, boot: bool
) -> None:
    pair = pads(Nothing(), Press(RIGHT))
    turned(pair, 3)
    pair.step()
    pair.transport(open=False, boot=boot)
    turned(pair, 9)
    pair.step()
    assert not pair.oracle.held
    pair.transport(open=True, boot=boot)
    last = told(pair, 20)[-1]
    assert not any(last)
    assert len(last) == (8 if boot else len(UP))


def test_where_a_knob_is_when_somebody_listens_is_a_detent(pads: Pads) -> None:
    """It is turned by a half while nobody does."""
    pair = pads(Press(LEFT), Press(RIGHT))
    pair.transport(open=False, boot=False)
    pair.turn("jog", 1)
    pair.step()
    pair.transport(open=True, boot=False)
    pair.turn("jog", 1)
    assert told(pair, 5) == []
    pair.turn("jog", 1)
    assert told(pair, 5) == [any_number(0, RIGHT), UP]


def test_in_boot_protocol_keys_of_a_knob_work_and_media_keys_do_not(pads: Pads) -> None:
    pair = pads(Media(0x0C, 0xEA), Press(RIGHT))
    pair.transport(open=True, boot=True)
    turned(pair, -1)
    pair.step()
    assert pair.take() is None
    assert pair.take_media() is None
    pair.step()
    turned(pair, 1)
    assert told(pair, 5) == [any_number(0, RIGHT)[:8], UP[:8]]


def test_a_turned_knob_does_not_wake_a_computer(pads: Pads) -> None:
    pair = pads(Press(LEFT), Press(RIGHT))
    pair.transport(open=False, boot=False)
    turned(pair, 5)
    assert not pair.engine.step()
