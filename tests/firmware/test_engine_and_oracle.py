"""The compiled engine does, report for report, what the Python model says."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from matrixgen.behaviour import Machine
from matrixgen.behaviour.pointer import REPORT as POINTER
from matrixgen.model import Keyboard
from tests.amounts import amount
from tests.firmware.fingers import a_wrap_later, moody_hands
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.firmware.pads import (
    huge_board,
    knob_pad,
    loader_pad,
    lone_pointer,
    media_pad,
    modifier_pad,
    plain_knob_pad,
    pointer_pad,
    press_pad,
    single_pad,
    small_pad,
    square_board,
    timed_pad,
    together_pad,
    turn_pad,
    typist_pad,
)
from tests.reports import any_number

BOARDS: dict[str, Callable[[], Keyboard]] = {
    "small": small_pad,
    "square": square_board,
    "huge": huge_board,
    "loader": loader_pad,
    "timed": timed_pad,
    "media": media_pad,
    "modifiers": modifier_pad,
    "presses": press_pad,
    "single": single_pad,
    "turns": turn_pad,
    "typist": typist_pad,
    "together": together_pad,
    "knobs": knob_pad,
    "knobs alone": plain_knob_pad,
    "pointer": pointer_pad,
    "lone pointer": lone_pointer,
}


LONGEST_TURN_STEPS = 160
"""Reports, and more, of what a key of these boards types in turn."""

QUIET_STEPS = 60
"""So long nothing was told and nothing waited, each 40 ms: longer than a time of these boards."""


class Pair:
    """Engine and model, done the same things to and compared after each."""

    def __init__(self, keyboard: Keyboard, folder: Path) -> None:
        self.keyboard = keyboard
        self.engine = HostKeyboard(shared_library(keyboard, folder), host_view(keyboard))
        self.keys = sorted(self.engine.crossings)
        self.knobs = [knob.name.text for knob in keyboard.knobs]
        self.restart()

    def restart(self) -> None:
        self.engine.restart()
        self.oracle = Machine(self.keyboard)

    def close(self, key: str, closed: bool) -> None:
        self.engine.close(key, closed)
        (self.oracle.closed.add if closed else self.oracle.closed.discard)(key)

    def toggle(self, key: str) -> None:
        self.close(key, key not in self.oracle.closed)

    def turn(self, knob: str, states: int) -> None:
        """Turn a knob by so many states at once, those to the left below 0."""
        self.oracle.knobs.turn(knob, states)
        now = self.oracle.knobs.contacts[knob]
        self.engine.turn(self.knobs.index(knob), now[0] + 2 * now[1])

    def turn_back(self) -> None:
        """Turn each knob until the steps that wait have cancelled each other."""
        for knob, one in self.oracle.knobs.turning.items():
            while one.waiting:
                self.turn(knob, -1 if one.waiting > 0 else 1)
                self.step()

    def advance(self, milliseconds: int) -> None:
        self.engine.advance(milliseconds)
        self.oracle.now_ms += milliseconds

    def transport(self, *, open: bool, boot: bool) -> None:
        self.engine.transport(open=open, boot=boot)
        self.oracle.is_open, self.oracle.boot = open, boot

    def leds(self, report: int) -> None:
        self.engine.leds(report)
        self.oracle.leds = report

    def step(self) -> None:
        assert self.engine.step() == self.oracle.step()
        for boot in (False, True):
            assert self.engine.current(boot=boot) == self.oracle.report(boot)
        assert self.engine.boot_loads() == self.oracle.lasting.boot_loads

    def take(self) -> bytes | None:
        report = self.engine.take()
        assert report == self.oracle.take()
        return report

    def take_media(self) -> bytes | None:
        report = self.engine.take_media()
        assert report == self.oracle.take_media()
        return report

    def something_waits(self) -> bool:
        """Return whether the model is not done yet with what was pressed."""
        oracle, lasting = self.oracle, self.oracle.lasting
        for_next_key = self.keyboard.once_ms is not None and lasting.for_next_key()
        waits = oracle.knobs.step is not None or oracle.held or oracle.edges.waiting
        return bool(waits or lasting.used or lasting.fresh or for_next_key)

    def let_everything_go(self) -> None:
        """All keys up, for long enough, and the host takes all reports."""
        for key in list(self.oracle.closed):
            self.close(key, False)
        self.transport(open=True, boot=self.oracle.boot)
        last: bytes | None = None
        media: dict[int, bytes] = {}
        self.turn_back()
        quiet = 0
        for _ in range(2 * len(self.keys) + 40 + LONGEST_TURN_STEPS * (1 + len(self.knobs))):
            self.advance(40)
            self.step()
            told, report = self.take(), self.take_media()
            last = told or last
            if report:
                media[report[0]] = report[1:2] if report[0] == POINTER else report[1:]
            quiet = 0 if told or report or self.something_waits() else quiet + 1
            if quiet == QUIET_STEPS:
                break
        lasting = self.oracle.lasting
        assert not self.something_waits()
        only_kept = any_number(lasting.modifiers)  # by `once` keys, until they are pressed again
        assert self.engine.current(boot=False) == only_kept, "a key sticks"
        assert last is None or not any(last) or lasting.modifiers, "the host thinks so"
        in_boot = self.oracle.boot  # then the host hears of no media key, be it of its release
        assert in_boot or not any(map(any, media.values())), "it thinks that a media key sticks"
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
        st.tuples(st.just("transport"), st.integers(0, 3)),
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
        pair.transport(open=number != 0, boot=number == 2)


@settings(
    max_examples=amount("MATRIXGEN_STEPS", suite=60, long=5000),
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
        if chance.random() < 0.6:
            pair.take_media()
        if chance.random() < 0.01:
            pair.transport(open=chance.random() < 0.8, boot=chance.random() < 0.5)
        if chance.random() < 0.02:
            pair.leds(chance.randrange(32))


@pytest.mark.few(6 * len(BOARDS))
@pytest.mark.parametrize("seed", range(40))
def test_fingers_at_random_with_bounce_and_chatter_give_the_model_s_reports(
    pair: Pair, seed: int
) -> None:
    pair.restart()
    press_many(pair, random.Random(seed), turns=150)
    pair.let_everything_go()


@pytest.mark.few(2 * len(BOARDS))
@pytest.mark.parametrize("seed", range(6))
def test_hands_and_hosts_of_many_moods_give_the_model_s_reports(pair: Pair, seed: int) -> None:
    pair.restart()
    moody_hands(pair, random.Random(seed), turns=400)
    pair.let_everything_go()


def down_for(pair: Pair, key: str, milliseconds: int) -> None:
    """Press a key and let it go; time passes in steps."""
    for down in (True, False):
        pair.close(key, down)
        for _ in range(milliseconds // 10 if down else 1):
            pair.step()
            pair.take()
            pair.advance(10)


def test_what_was_typed_before_power_was_lost_makes_no_tap(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """A key that is tapped and pressed again repeats; one that was held first of all does not."""
    pair = Pair(timed_pad(), tmp_path_factory.mktemp("anew"))
    for _ in range(2):
        for milliseconds in (400, 400):
            down_for(pair, "A", milliseconds)
        down_for(pair, "A", 30)
        pair.restart()


@pytest.mark.few(3 * len(BOARDS))
@pytest.mark.parametrize("seed", range(10))
def test_a_wrap_of_the_clock_later_nothing_was_typed_just_now(pair: Pair, seed: int) -> None:
    pair.restart()
    chance = random.Random(seed)
    for _ in range(6):
        a_wrap_later(pair, chance)
        pair.let_everything_go()


def test_a_hand_on_every_key_at_once_loses_no_change(pair: Pair) -> None:
    pair.restart()
    pressed = 0
    for key in pair.keys:
        pair.close(key, True)
    for _ in range(len(pair.keys) + 30 + LONGEST_TURN_STEPS):
        pair.step()
        pair.take()
        pair.take_media()
        pair.advance(20)  # some wait for what a press means
        pressed = len(pair.oracle.held)
    assert pressed == len(pair.keys)
    pair.let_everything_go()
