"""Hands and hosts with moods, at engine and model together.

Few keys or all, slow hands or fast ones, switches that chatter; a host that takes each report at
once, now and then, or for seconds none; that closes, changes the protocol, or is another one.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tests.firmware.test_engine_and_oracle import Pair

FAST, TYPING, SLOW = (0, 0, 1, 1, 2, 3), (1, 2, 5, 9, 20, 40, 70, 110), (20, 90, 149, 160, 210, 720)
CLOSE_TO_LIMITS = (4, 5, 6, 29, 30, 59, 60, 99, 100, 119, 120, 149, 150, 199, 200, 699, 700)
LONGEST_SCAN_MS = 40
"""A keyboard scans at least so often, whatever the hands do."""
LOADED_MS = 1200
"""After so long the keys that start the boot loader have done so."""


def moody_hands(pair: Pair, chance: Random, turns: int) -> None:
    """Press and release for so many turns."""
    keys = alike(pair, chance) if chance.random() < 0.4 else some(pair.keys, chance)
    pauses = chance.choice((FAST, TYPING, TYPING, SLOW, CLOSE_TO_LIMITS))
    eager, chatters = chance.choice((0.1, 0.6, 1.0, 1.0)), chance.choice((0.0, 0.0, 0.4))
    for _ in range(turns):
        key = chance.choice(keys)
        pair.toggle(key)
        turn_a_knob(pair, chance)
        if chance.random() < chatters:
            chatter(pair, key, chance)
        wait(pair, chance.choice(pauses), chance, eager)
        if chance.random() < 0.03:
            change_mood(pair, chance)


def turn_a_knob(pair: Pair, chance: Random) -> None:
    """Turn one at times, on or back, by up to as many states as can be told from others."""
    if pair.knobs and chance.random() < 0.5:
        knob, states = chance.choice(pair.knobs), chance.choice((1, 1, 1, -1, -1, 2, 3))
        for _ in range(chance.randrange(1, 9) if chance.random() < 0.99 else 560):
            pair.turn(knob, states)
            if chance.random() < 0.9:
                pair.step()


def some(keys: list[str], chance: Random) -> list[str]:
    return chance.sample(keys, min(len(keys), chance.choice((1, 2, 3, 5, 9, 99))))


def alike(pair: Pair, chance: Random) -> list[str]:
    """Return the keys whose behaviour is that of one of them, and three more."""
    kind = type(pair.oracle.action_of(chance.choice(pair.keys)))
    same = [key for key in pair.keys if type(pair.oracle.action_of(key)) is kind]
    return [*chance.sample(same, min(len(same), 4)), *chance.sample(pair.keys, 3)]


def wait(pair: Pair, milliseconds: int, chance: Random, eager: float) -> None:
    """Let time pass, in scans no farther apart than a nap and some, or a second once all rests."""
    passed = 0
    while True:
        step_ms = min(milliseconds - passed, 1000 if rests(pair) else LONGEST_SCAN_MS)
        pair.advance(step_ms)
        pair.step()
        if chance.random() < eager:
            pair.take()
            pair.take_media()
        passed += step_ms
        loaded = pair.oracle.combination.since is not None and passed > LOADED_MS
        if passed == milliseconds or loaded:  # by then a chip has left for its boot loader
            return


def rests(pair: Pair) -> bool:
    """Whether no edge waits, nor is one to come."""
    edges = pair.oracle.edges
    return not edges.waiting and edges.closed == pair.oracle.closed


def chatter(pair: Pair, key: str, chance: Random) -> None:
    """Let a switch open and close again, an even number of times, some of it within a scan."""
    for _ in range(2 * chance.randrange(1, 4)):
        pair.advance(chance.choice((0, 0, 1, 2, 5)))
        if chance.random() < 0.8:
            pair.step()
        pair.toggle(key)


def change_mood(pair: Pair, chance: Random) -> None:
    """Let the host do something else, or nothing for a while."""
    pair.leds(chance.choice((0, 0, 2, 31)))
    mood = chance.randrange(6)
    if mood <= 2:
        pair.transport(open=mood != 0, boot=chance.random() < 0.5)
    elif mood == 3:
        wait(pair, chance.choice((900, 3_000, 17_000, 33_000)), chance, 1.0)
        a_wrap_later(pair, chance)
    elif mood == 4:  # the host is stuck while keys go on
        for _ in range(chance.choice((3, 12, 40))):
            pair.toggle(chance.choice(pair.keys))
            wait(pair, chance.choice(TYPING), chance, 0.0)
    else:
        plug_in_again(pair, chance)


def a_wrap_later(pair: Pair, chance: Random) -> None:
    """Tap a key, and press one when the clock's sixteen bits say that this was just now."""
    first, other = chance.choice(pair.keys), chance.choice(pair.keys)
    for key, pause in (
        (first, 30),
        (first, 0x10000 - 30 + chance.randrange(-30, 90)),
        (chance.choice((first, other)), 250),
    ):
        pair.toggle(key)
        wait(pair, pause, chance, 1.0)


def plug_in_again(pair: Pair, chance: Random) -> None:
    """Start anew at the same time of the clock, so that what is left from before would show.

    The key that typed last is held then, and held again.
    """
    if pair.knobs:  # with a step down, and others that wait
        for _ in range(20):
            pair.turn(pair.knobs[0], 1)
            pair.step()
    typed, now_ms = pair.oracle.lasting.typed, pair.oracle.now_ms % 0x10000
    key = (typed.key if typed else None) or chance.choice(pair.keys)
    pair.restart()
    pair.advance(now_ms)
    for pause in (chance.choice(SLOW), 30, chance.choice(SLOW), 30):
        pair.toggle(key)
        wait(pair, pause, chance, 1.0)
