"""The compiled engine does, report for report, what the Python model says."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from matrixgen.model import Keyboard
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.oracle.oracle import Oracle
from tests.firmware.pads import huge_board, loader_pad, small_pad, square_board

BOARDS: dict[str, Callable[[], Keyboard]] = {
    "small": small_pad,
    "square": square_board,
    "huge": huge_board,
    "loader": loader_pad,
}


class Pair:
    """Engine and model, done the same things to and compared after each."""

    def __init__(self, keyboard: Keyboard, folder: Path) -> None:
        self.keyboard = keyboard
        self.engine = HostKeyboard(shared_library(keyboard, folder), host_view(keyboard))
        self.keys = sorted(self.engine.crossings)
        self.restart()

    def restart(self) -> None:
        self.engine.restart()
        self.oracle = Oracle(self.keyboard)

    def close(self, key: str, closed: bool) -> None:
        self.engine.close(key, closed)
        (self.oracle.closed.add if closed else self.oracle.closed.discard)(key)

    def toggle(self, key: str) -> None:
        self.close(key, key not in self.oracle.closed)

    def advance(self, milliseconds: int) -> None:
        self.engine.advance(milliseconds)
        self.oracle.now_ms += milliseconds

    def outlet(self, *, open: bool, boot: bool) -> None:
        self.engine.outlet(open=open, boot=boot)
        self.oracle.is_open, self.oracle.boot = open, boot

    def step(self) -> None:
        assert self.engine.step() == self.oracle.step()
        for boot in (False, True):
            assert self.engine.current(boot=boot) == self.oracle.report(boot)
        assert self.engine.boot_loads() == self.oracle.boot_loads

    def take(self) -> bytes | None:
        report = self.engine.take()
        assert report == self.oracle.take()
        return report

    def let_everything_go(self) -> None:
        """All keys up, for long enough, and the host takes all reports."""
        for key in list(self.oracle.closed):
            self.close(key, False)
        self.outlet(open=True, boot=self.oracle.boot)
        last = None
        for _ in range(2 * len(self.keys) + 40):
            self.advance(40)
            self.step()
            last = self.take() or last
        assert not any(self.engine.current(boot=False)), "a key sticks"
        assert last is None or not any(last), "the host thinks that a key sticks"
        assert self.engine.faults() == 0


@pytest.fixture(scope="module", params=BOARDS)
def pair(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Pair:
    return Pair(BOARDS[request.param](), tmp_path_factory.mktemp(request.param))


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Pair:
    return Pair(small_pad(), tmp_path_factory.mktemp("small"))


STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("toggle"), st.integers(0, 10)),
        st.tuples(st.just("advance"), st.integers(0, 12)),
        st.tuples(st.just("scan"), st.integers(1, 3)),
        st.tuples(st.just("take"), st.just(0)),
        st.tuples(st.just("outlet"), st.integers(0, 3)),
    ),
    max_size=80,
)


def perform(pair: Pair, what: str, number: int) -> None:
    if what == "toggle":
        pair.toggle(pair.keys[number])
    elif what == "advance":
        pair.advance(number)
    elif what == "scan":
        for _ in range(number):
            pair.step()
    elif what == "take":
        pair.take()
    else:
        pair.outlet(open=number != 0, boot=number == 2)


@settings(
    max_examples=300,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(steps=STEPS)
def test_any_sequence_of_switch_changes_scans_and_host_moods_gives_the_model_s_reports(
    small: Pair, steps: list[tuple[str, int]]
) -> None:
    small.restart()
    for what, number in steps:
        perform(small, what, number)
    small.let_everything_go()


def press_many(pair: Pair, chance: random.Random, turns: int) -> None:
    """Many fingers: keys go down and up at random, bounce at each edge, now and then chatter."""
    bouncing: dict[str, int] = {}
    for _ in range(turns):
        for _ in range(chance.choice((0, 0, 1, 2))):
            key = chance.choice(pair.keys)
            pair.toggle(key)
            bouncing[key] = 2 * chance.randrange(4)
        for key in [key for key, left in bouncing.items() if left]:
            pair.toggle(key)
            bouncing[key] -= 1
        pair.advance(chance.choice((0, 0, 1, 1, 2, 7, 40)))
        pair.step()
        if chance.random() < 0.6:
            pair.take()
        if chance.random() < 0.01:
            pair.outlet(open=chance.random() < 0.8, boot=chance.random() < 0.5)


@pytest.mark.parametrize("seed", range(40))
def test_fingers_at_random_with_bounce_and_chatter_give_the_model_s_reports(
    pair: Pair, seed: int
) -> None:
    pair.restart()
    press_many(pair, random.Random(seed), turns=150)
    pair.let_everything_go()


def test_a_hand_on_every_key_at_once_loses_no_change(pair: Pair) -> None:
    pair.restart()
    pressed = 0
    for key in pair.keys:
        pair.close(key, True)
    for _ in range(len(pair.keys) + 5):
        pair.step()
        pair.take()
        pressed = len(pair.oracle.held)
    assert pressed == len(pair.keys)
    pair.let_everything_go()
