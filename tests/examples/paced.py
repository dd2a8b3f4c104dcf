"""Random fingers with pauses, for keyboards whose keys ask how long ago something was.

Every change is at a multiple of 13 ms, or 2 ms after one. A chip's stamps are whole milliseconds
and its scans fall anywhere within one, so that two of them differ from what they should by one at
most: no time that such a keyboard asks for may be nearer than that to a difference of two changes.
`is_clear` says which times are not.
"""

from __future__ import annotations

import random
from collections.abc import Collection
from dataclasses import replace

from matrixgen.model.knob import Knob
from tests.examples.fingers import Change, Sequence, Step

STEP_MS, QUICK_MS, KNOB_MS = 13, 2, 4
PAUSES = (1, 1, 1, 1, 1, 1, 2, 2, 3, 5, 9, 16)
"""In steps: up to 208 ms."""

LAST_PAUSE = 2


def is_clear(milliseconds: int) -> bool:
    """Whether no difference of two changes comes within a millisecond of it."""
    return 4 <= milliseconds % STEP_MS <= 9


def paced(chance: random.Random, keys: list[str], most: int) -> Sequence:
    """Return a sequence of one to `most` keys that overlap, with pauses."""
    fingers = chance.sample(keys, min(len(keys), chance.randint(1, most)))
    presses = {key: chance.choice((1, 1, 1, 2)) for key in fingers}
    closed: set[str] = set()
    changes: list[Change] = []
    step, quick = 0, False
    while closed or any(presses.values()):
        key = chance.choice([key for key in fingers if key in closed or presses[key]])
        quick = bool(changes) and not quick and changes[-1].key != key and chance.random() < 0.3
        if not quick:
            step += chance.choice(PAUSES)
        if key not in closed:
            presses[key] -= 1
        closed ^= {key}
        changes.append(Change(step * STEP_MS + QUICK_MS * quick, key, key in closed))
    return Sequence(tuple(changes), (step + LAST_PAUSE) * STEP_MS)


def with_steps(chance: random.Random, fingers: Sequence, knobs: Collection[Knob]) -> Sequence:
    """Return a sequence in which knobs are turned by some steps, between two changes of keys."""
    places = range(fingers.ends_ms // STEP_MS)
    some = chance.sample(places, min(len(places), chance.randrange(5))) if knobs else []
    steps = []
    for place in sorted(some):
        knob = chance.choice([*knobs])
        at_ms, way = place * STEP_MS + KNOB_MS, chance.choice((1, -1))
        steps.append(Step(at_ms, knob.name.text, knob.states, way))
        assert KNOB_MS + steps[-1].lasts_ms < STEP_MS, "it would turn into the next change"
    return replace(fingers, steps=tuple(steps))
