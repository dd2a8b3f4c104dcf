"""Hands that press several keys at once: those of a set, some of them, and others between."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from tests.firmware.fingers import change_mood, chatter, wait

if TYPE_CHECKING:
    from tests.firmware.test_engine_and_oracle import Pair

GAPS_MS = (0, 0, 1, 1, 2, 3, 5, 9, 10, 15, 19, 20, 29, 30, 35, 39, 40, 41, 60, 99, 200)
"""Between one finger and the next: around the times of the tests' sets."""
LASTING_MS = (0, 1, 5, 7, 20, 40, 80, 119, 150, 210, 400)


def chords(pair: Pair, chance: Random, turns: int) -> None:
    """Press and let go, mostly the keys of a set."""
    eager = chance.choice((0.1, 0.6, 1.0, 1.0))
    chatters = chance.choice((0.0, 0.0, 0.3))
    sets = [one.key_names for layer in pair.keyboard.layers for one in layer.together]
    for _ in range(turns):
        keys = fingers(chance, pair.keys, sets)
        fast = chance.choice((3, 8, len(GAPS_MS)))
        for key in keys:
            pair.toggle(key)
            if chance.random() < chatters:
                chatter(pair, key, chance)
            wait(pair, chance.choice(GAPS_MS[:fast]), chance, eager)
        wait(pair, chance.choice(LASTING_MS), chance, eager)
        some_up = [key for key in sorted(pair.oracle.closed) if chance.random() < 0.8]
        chance.shuffle(some_up)
        for key in some_up:
            pair.toggle(key)
            wait(pair, chance.choice(GAPS_MS[:fast]), chance, eager)
        if chance.random() < 0.03:
            change_mood(pair, chance)


def fingers(chance: Random, every: list[str], sets: list[tuple[str, ...]]) -> list[str]:
    """The keys of a set in any order, maybe one too few or with another one, or any keys."""
    keys = list(chance.choice(sets)) if chance.random() < 0.9 else chance.sample(every, 2)
    chance.shuffle(keys)
    if chance.random() < 0.15:
        keys.pop()
    if chance.random() < 0.25:
        keys.insert(chance.randrange(len(keys) + 1), chance.choice(every))
    if chance.random() < 0.1:
        keys.append(chance.choice(keys))
    if chance.random() < 0.1:
        keys += [keys[0], keys[0]]
    return keys
