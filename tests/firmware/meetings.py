"""Fingers with times at a keyboard of every behaviour, and which behaviours met.

`python -m tests.firmware.meetings` plays 45,000 edges on engine and model, 1,440,000 in the long
run, and prints how often each behaviour's press came right after each other one's.
"""

from __future__ import annotations

import tempfile
from collections import Counter
from pathlib import Path
from random import Random
from typing import get_args

from matrixgen.behaviour.machine import Machine
from matrixgen.behaviour.state import Event
from matrixgen.model import Action, StartBootLoader, Together
from tests.amounts import IS_LONG, amount
from tests.firmware.pads import timed_pad
from tests.firmware.test_engine_and_oracle import Pair

EDGES, RUNS = 15_000, amount("MATRIXGEN_MEETINGS", suite=3, long=96)
AT_LEAST = 1000 if IS_LONG else 7 * RUNS
PAUSES_MS = (0, 1, 1, 2, 3, 5, 7, 10, 20, 40, 70, 110, 160, 210, 400, 720)
MET = [*(kind for kind in get_args(Action) if kind is not StartBootLoader), Together]
"""What can be on one keyboard for 200,000 events: the boot loader would end it."""

SET_MS = (0, 1, 1, 3, 9)
"""From one key of a set to the next."""


class Meetings:
    """How often which behaviour's press came right after which other's."""

    def __init__(self) -> None:
        self.counts: Counter[tuple[str, str]] = Counter()
        self.last: str | None = None

    def watch(self, machine: Machine) -> None:
        """Count the presses of a machine by what the keys are, not by what they turn out to do."""
        plain = machine._press

        def press(event: Event, action: Action) -> None:
            of_several = len(machine.asked(event)[1]) > 1
            asked = Together if of_several else type(machine.action_of(event.key))
            self.met(asked.__name__)
            plain(event, action)

        machine._press = press  # type: ignore[method-assign]

    def met(self, name: str) -> None:
        if self.last is not None:
            self.counts[self.last, name] += 1
        self.last = name

    def table(self) -> str:
        names = [kind.__name__ for kind in MET]
        head = f"{'then':>16}" + "".join(f"{name[:13]:>14}" for name in names)
        rows = [
            f"{first:>16}" + "".join(f"{self.counts[first, then]:>14,}" for then in names)
            for first in names
        ]
        return "\n".join([head, *rows])


def play(pair: Pair, chance: Random, edges: int, meetings: Meetings) -> None:
    """Press and release at random, with pauses, a host that is slow at times, and short bounces."""
    pair.restart()
    meetings.watch(pair.oracle)
    kinds = kinds_of(pair)
    kind = kinds[0]
    eager = chance.choice((0.3, 0.9, 1.0))
    for _ in range(edges):
        down = sorted(pair.oracle.closed)
        lets_go = down and chance.random() < 0.25 + 0.12 * len(down)
        if chance.random() < 0.7:  # else a key of the same kind again
            kind = chance.choice(kinds)
        first, *others = [chance.choice(down)] if lets_go else chance.choice(kind)
        pair.toggle(first)
        for key in [key for key in others if key not in down]:
            pair.advance(chance.choice(SET_MS))
            pair.step()
            pair.toggle(key)
        pair.advance(chance.choice(PAUSES_MS))
        pair.step()
        if chance.random() < eager:
            pair.take()
        if chance.random() < eager:
            pair.take_media()
    pair.let_everything_go()


def kinds_of(pair: Pair) -> list[list[tuple[str, ...]]]:
    """The keys of each behaviour on the base layer, one by one, and the sets of keys there."""
    of_kind: dict[type[object], list[tuple[str, ...]]] = {}
    for key in pair.keys:
        of_kind.setdefault(type(pair.oracle.action_of(key)), []).append((key,))
    for one in pair.keyboard.layers[0].together:
        of_kind.setdefault(Together, []).append(one.key_names)
    sets = of_kind.get(Together, [])  # twice, since many of their keys are down by themselves
    return [*of_kind.values(), *([sets] if sets else [])]


def play_all(folder: Path) -> Meetings:
    """Play every run; engine and model are compared after each step."""
    meetings = Meetings()
    pair = Pair(timed_pad(in_turn=True, together=True), folder)
    for seed in range(RUNS):
        play(pair, Random(seed), EDGES, meetings)
    return meetings


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        print(play_all(Path(folder)).table())


if __name__ == "__main__":
    main()
