"""What `probe` finds of the second model's slips: `python -m tests.bench.faults [EXAMPLE...]`.

Slips are soldered into an example in the second model (`tests/probe/soldered.py`), and the verdict
on what it shows is asked for. Printed for each kind of slip: how many were tried; the share whose
verdict names the true one, and the share where it is the first explanation; how many explanations
there are, of how many ways of being true; and how many questions, each answered truly, it takes
until one is left. Then the same of pairs, and of three slips at once. Slips that no press can show
are left out and counted.

MATRIXGEN_SINGLES and MATRIXGEN_DOUBLES say how many of each kind, and how many pairs and threes.
"""

from __future__ import annotations

import random
import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from matrixgen.bench.faults.fault import Fault
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.questions.questions import Questions, World, worlds
from matrixgen.bench.verdicts.verdict import Verdict, verdict_of
from tests.amounts import amount
from tests.examples.shipped import NAMES
from tests.probe.as_slips import sets_of, slips_of
from tests.probe.asking import asked_until_one_is_left
from tests.probe.boards import seen_of, seen_with, slips, suspects_of
from tests.probe.slips import EXCHANGED, Slip

SINGLES = amount("MATRIXGEN_SINGLES", suite=10, long=10_000)
PAIRS = amount("MATRIXGEN_DOUBLES", suite=40, long=2000)
THREES = amount("MATRIXGEN_THREES", suite=25, long=200)


@dataclass
class Tally:
    """What came of some verdicts."""

    count: int = 0
    unseen: int = 0
    found: int = 0
    partly: int = 0
    first: int = 0
    causes: int = 0
    ways: int = 0
    asked: int = 0
    left: int = 0
    slowest: float = 0.0
    kinds: set[str] = field(default_factory=set)

    def add(self, name: str, these: Sequence[Slip]) -> None:
        """Take what comes of some slips."""
        seen = seen_with(name, these)
        suspects = suspects_of(name)
        if seen is None:
            return
        if seen == seen_of(Netlist(suspects.board)):
            self.unseen += 1
            return
        start = time.process_time()
        verdict = verdict_of(suspects, seen)
        self.slowest = max(self.slowest, time.process_time() - start)
        self.count += 1
        self.causes += len(verdict.causes)
        self._take(name, these, verdict)
        every = worlds(suspects.board, verdict.causes)
        self.ways += len(every)
        true = next((one for one in every if is_true(these, one)), None)
        if true:
            questions = Questions(suspects.board, every, seen)
            asked = asked_until_one_is_left(questions, lambda one: questions.answer(one, true))
            self.asked += len(asked)
            self.left += len(questions.left)
            self.kinds |= {one.kind for one in asked}

    def _take(self, name: str, these: Sequence[Slip], verdict: Verdict) -> None:
        board, true = suspects_of(name).board, whole(these)
        if verdict.unexplained:
            return
        ranks = [
            max((len(one & true) if one <= true else 0) for one in sets_of(board, cause))
            for cause in verdict.causes
        ]
        best = max(ranks, default=0)
        self.found += best == len(true)
        self.partly += 0 < best < len(true)
        self.first += best > 0 and ranks[0] > 0

    def __str__(self) -> str:
        count, known = self.count or 1, (self.found + self.partly) or 1
        return (
            f"{self.count:>6} {self.unseen:>5} {self.found / count:8.2%} {self.partly / count:7.2%}"
            f" {self.first / count:8.2%} {self.causes / count:7.2f} {self.ways / count:7.2f}"
            f" {self.asked / known:6.2f} {self.left / known:6.2f} {self.slowest:7.2f} s"
        )


def whole(these: Iterable[Slip]) -> frozenset[Slip]:
    """Return slips with those that are two taken apart."""
    found = set[Slip]()
    for slip in these:
        if slip.kind == "leads on one pin":
            one, other, pin = slip.at
            found |= {Slip("lead on spare pin", (wire, pin)) for wire in (one, other)}
        else:
            found.add(slip)
    return frozenset(found)


def is_true(these: Iterable[Slip], world: World) -> bool:
    """Whether a world is made of some slips, or of as many of them as can be seen."""
    true = whole(these)
    return all(not true.isdisjoint(called(fault)) for fault in world.faults)


def called(fault: Fault) -> list[Slip]:
    """Return the slips that a fault may be, keys at each other's place too."""
    return [Slip(EXCHANGED, fault.keys)] if fault.kind == EXCHANGED else slips_of(fault)


HEAD = (
    "                                        count  unseen  in it   in part    first  causes"
    "    ways  asked   left  slowest"
)


def single_tallies(name: str) -> dict[str, Tally]:
    """Return what came of some slips of each kind."""
    rng, by_kind = random.Random(1), defaultdict(list)
    for slip in slips(name):
        by_kind[slip.kind].append(slip)
    found = {}
    for kind, every in sorted(by_kind.items()):
        found[kind] = Tally()
        for slip in rng.sample(every, min(SINGLES, len(every))):
            found[kind].add(name, [slip])
    return found


def tally_of(name: str, size: int, count: int) -> Tally:
    """Return what came of some sets of as many slips, one kind as likely as another."""
    rng, by_kind = random.Random(size), defaultdict(list)
    for slip in slips(name):
        by_kind[slip.kind].append(slip)
    tally = Tally()
    for _ in range(count):
        tally.add(name, [rng.choice(by_kind[kind]) for kind in rng.sample(sorted(by_kind), size)])
    return tally


def main() -> None:
    print(HEAD)
    for name in sys.argv[1:] or NAMES:
        for kind, tally in single_tallies(name).items():
            print(f"{name:<14} {kind:<20} {tally}", flush=True)
        print(f"{name:<14} {'two':<20} {tally_of(name, 2, PAIRS)}", flush=True)
        print(f"{name:<14} {'three':<20} {tally_of(name, 3, THREES)}", flush=True)


if __name__ == "__main__":
    main()
