"""Every single fault of every example, random pairs: `python -m tests.bench.faults [EXAMPLE...]`.

Each fault is put into the netlist of an example and the verdict is asked for. Three things are
looked at: whether the true faults are in it; whether each of its explanations, put into the
netlist anew, shows exactly what was seen; and how large it is. Of two faults one may hide the
other, such as a break that cuts a turned diode off: the verdict then has the one that shows.

`named` is the share of single faults whose verdict has one explanation of one fault, with all that
look alike to every pin said in one: a joint, a diode and a switch are in series. `to the place` is
the share of those where nothing else looks alike.

That the netlist is right is shown beside a netlist of every joint, in `tests/probe`.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Iterator
from itertools import combinations

from matrixgen.bench.effect import FaultEffect
from matrixgen.bench.observe import Exchange, Seen, netlist_with
from matrixgen.bench.suspects import Suspects
from matrixgen.bench.verdict import verdict_of
from tests.examples.shipped import NAMES
from tests.probe.boards import seen_of, suspects_of

PAIRS = 2000
EXCHANGED = 0.1
"""Share of the random pairs that have two keys at each other's place as one of their faults."""

Faults = tuple[FaultEffect | Exchange, ...]


class Tally:
    """What came of many verdicts; each single fault counts by itself, look-alikes too."""

    def __init__(self, suspects: Suspects, every: Iterator[Faults]) -> None:
        self.count = self.found = self.hidden = self.wrong = self.named = self.to_place = 0
        self.causes = self.most = 0
        self.slowest = 0.0
        for faults in every:
            self.add(suspects, faults)

    def add(self, suspects: Suspects, faults: Faults) -> None:
        seen = seen_with(suspects, faults)
        start = time.process_time()
        verdict = verdict_of(suspects, seen)
        self.slowest = max(self.slowest, time.process_time() - start)
        sets = [frozenset([*one.effects, *one.exchanges]) for one in verdict.causes]
        alike = (
            len(faults[0].faults) if isinstance(faults[0], FaultEffect) and len(faults) == 1 else 1
        )
        self.count += alike
        self.found += alike * (frozenset(faults) in sets)
        is_there = frozenset(faults) in sets
        self.hidden += not is_there and any(one < frozenset(faults) for one in sets)
        of_one_fault = [cause for cause in verdict.causes if cause.size == 1]
        self.named += alike * (len(of_one_fault) == 1)
        self.to_place += alike == 1 and len(of_one_fault) == 1
        self.causes += alike * len(sets)
        self.most = max(self.most, len(sets))
        self.wrong += bool(verdict.unexplained) or any(
            seen_of(netlist_with(suspects.board, *one.effects), *one.exchanges) != seen
            for one in verdict.causes
        )


def seen_with(suspects: Suspects, faults: Faults) -> Seen:
    effects = [one for one in faults if isinstance(one, FaultEffect)]
    swaps = [one for one in faults if not isinstance(one, FaultEffect)]
    return seen_of(netlist_with(suspects.board, *effects), *swaps)


def singles(suspects: Suspects) -> Iterator[Faults]:
    yield from ((one.effect,) for one in suspects.all)
    yield from ((swap,) for swap in combinations(range(len(suspects.board.keys)), 2))


def pairs(suspects: Suspects, count: int) -> Iterator[Faults]:
    rng = random.Random(1)
    effects = [one.effect for one in suspects.all]
    places = range(len(suspects.board.keys))
    for _ in range(count):
        one, other = rng.sample(effects, 2)
        one_key, other_key = sorted(rng.sample(places, 2))
        yield (one, (one_key, other_key)) if rng.random() < EXCHANGED else (one, other)


def main() -> None:
    names = sys.argv[1:] or NAMES
    print(
        "single faults  count, true one in the verdict, wrong explanations, named, to the place, "
        "mean size, largest, slowest"
    )
    for name in names:
        suspects = suspects_of(name)
        one = Tally(suspects, singles(suspects))
        print(
            f"{name:<14} {one.count:>6}  {one.found / one.count:7.2%} {one.wrong:>3}  "
            f"{one.named / one.count:7.2%} {one.to_place / one.count:7.2%} "
            f"{one.causes / one.count:6.2f} {one.most:>4} {one.slowest:6.2f} s",
            flush=True,
        )
    print(
        "two faults     count, both in the verdict, one hides the other, neither, "
        "wrong explanations, mean size, largest, slowest"
    )
    for name in names:
        suspects = suspects_of(name)
        two = Tally(suspects, pairs(suspects, PAIRS))
        neither = two.count - two.found - two.hidden
        print(
            f"{name:<14} {two.count:>6}  {two.found / two.count:7.2%} "
            f"{two.hidden / two.count:7.2%} {neither / two.count:7.2%} {two.wrong:>3}  "
            f"{two.causes / two.count:6.2f} {two.most:>4} {two.slowest:6.2f} s",
            flush=True,
        )


if __name__ == "__main__":
    main()
