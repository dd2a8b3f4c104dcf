"""Random fingers whose every change has one right answer, however the scans happen to fall.

Two changes are a millisecond apart at least, two releases two (a chip's stamps are whole
milliseconds, and its scans fall anywhere within one), and no press comes within two milliseconds of
the moment at which a release is due: so the order of the reports never hangs on a race.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

GUARD_MS, STATE_MS = 2, 2


@dataclass(frozen=True)
class Change:
    """At `at_ms` from the sequence's start, the key closes or opens."""

    at_ms: int
    key: str
    closed: bool


@dataclass(frozen=True)
class Step:
    """From `at_ms` on, a knob turns by a step of `states`, each of which takes `STATE_MS`.

    `way` is 1 to the right and -1 to the left.
    """

    at_ms: int
    knob: str
    states: int
    way: int

    @property
    def lasts_ms(self) -> int:
        return self.states * STATE_MS


@dataclass(frozen=True)
class Sequence:
    """Some changes, after which every key is open; `ends_ms` is when the last release is told."""

    changes: tuple[Change, ...]
    ends_ms: int
    steps: tuple[Step, ...] = ()


def sequence(chance: random.Random, keys: list[str], debounce_ms: int) -> Sequence:
    """Return a sequence of two to six keys that overlap, some of which bounce or repeat."""
    fingers = chance.sample(keys, min(len(keys), chance.randint(2, 6)))
    presses = {key: chance.choice((1, 1, 1, 2)) for key in fingers}
    closed: set[str] = set()
    due: dict[str, int] = {}
    changes: list[Change] = []
    now = 0
    while closed or any(presses.values()):
        key = chance.choice([key for key in fingers if key in closed or presses[key]])
        taken = list(due.values())
        if key in closed:
            now = _free_moment(now + chance.choice((2, 2, 3, 6)), taken)
            closed.remove(key)
            due[key] = now + debounce_ms + 1
        else:
            now = _free_moment(now + chance.choice((1, 1, 2, 3, 6)), taken)
            closed.add(key)
            presses[key] -= 1
            due.pop(key, None)
        changes.append(Change(now, key, key in closed))
    return Sequence(tuple(changes), now + debounce_ms + 2 * GUARD_MS)


def _free_moment(moment: int, due: list[int]) -> int:
    while any(abs(moment - other) <= GUARD_MS for other in due):
        moment += 1
    return moment
