"""The one press, pair of keys or measurement that tells most explanations apart.

Each explanation stands for one or more worlds: which of its faults that look alike it is. A world
weighs as much as its faults are common. The best question is that whose answer is least certain:
its expected information, in bits, is the entropy of the answers (C. E. Shannon, "A Mathematical
Theory of Communication", 1948, section 6). Of equally good ones a press comes first.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from functools import cached_property
from itertools import combinations, islice
from math import log2
from typing import Literal

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import worlds_of
from matrixgen.bench.faults.explanation import Explanation, Played
from matrixgen.bench.faults.fault import RARITY, Fault
from matrixgen.bench.faults.netlist import Pairs
from matrixgen.bench.faults.observe import Seen
from matrixgen.bench.questions.meter import Measurement, measurements_of
from matrixgen.bench.questions.meter_answers import is_yes
from matrixgen.record import Record

MOST_WORLDS = 400
"""Worlds that are told apart at once, the likeliest ones."""

MOST_KEYS = 14
"""Keys of which every two are tried together."""

COMMON = 0.01
"""How likely a fault of the commonest kind is at its place; each step of rarity makes it a third of
that. Common practice, no source: only the order of questions depends on it."""

LEAST_BITS = 1e-9
"""Less than this tells nothing apart."""

Answer = Pairs | bool


class World(Record):
    """One way in which an explanation may be true."""

    explanation: Explanation
    faults: tuple[Fault, ...]

    @cached_property
    def weight(self) -> float:
        """How likely it is beside others."""
        weight = 1.0
        for fault in self.faults:
            weight *= COMMON / 3 ** (RARITY[fault.kind] - 1)
        return weight


class Question(Record):
    """What to do: press one key that was not, hold two down together, or measure something."""

    kind: Literal["press", "hold", "measure"]
    keys: tuple[int, ...] = ()
    measurement: Measurement | None = None


def worlds(board: Board, explanations: Iterable[Explanation]) -> list[World]:
    """Return the worlds of some explanations, in their order; the first so many."""
    return list(islice(_worlds(board, explanations), MOST_WORLDS))


def _worlds(board: Board, explanations: Iterable[Explanation]) -> Iterator[World]:
    for one in explanations:
        swaps = tuple(
            Fault(kind="keys exchanged", keys=(board.keys[x], board.keys[y]))
            for x, y in one.exchanges
        )
        yield from (World(one, (*faults, *swaps)) for faults in worlds_of(one.effects))


class Questions:
    """The worlds that are left, and what was asked of them already."""

    def __init__(self, board: Board, left: list[World], seen: Seen) -> None:
        self._board, self.all, self.left = board, tuple(left), left
        self._not_pressed = [key for key in range(len(board.keys)) if key not in seen.keys]
        self._asked: set[Question] = set()
        self._played: dict[Explanation, Played] = {}

    def next(self) -> Question | None:
        """Return the question that tells most worlds apart; None if nothing does."""
        best, most = None, LEAST_BITS
        for question in self._possible():
            bits = self._bits(question)
            if bits > most + LEAST_BITS:
                best, most = question, bits
        if best:
            self._asked.add(best)
        return best

    def take(self, question: Question, answer: Answer) -> bool:
        """Keep the worlds that give an answer; if none does, keep all and return false."""
        kept = [one for one in self.left if self.answer(question, one) == answer]
        self.left = kept or self.left
        return bool(kept)

    def answer(self, question: Question, world: World) -> Answer:
        """Return what a question is answered with in a world."""
        one = world.explanation
        if one not in self._played:
            self._played[one] = Played(self._board, one)
        played = self._played[one]
        if question.measurement:
            return is_yes(question.measurement, self._board, played.netlist, world.faults)
        return played.pressed(question.keys)

    def _possible(self) -> Iterator[Question]:
        """Yield what could be asked, the easiest first."""
        every: list[Question] = []
        if not any(one.measurement for one in self._asked):  # else the keyboard is unplugged
            every += [Question("press", (key,)) for key in self._not_pressed]
            every += [Question("hold", pair) for pair in combinations(self._keys(), 2)]
        tests = dict.fromkeys(
            test for one in self.left for fault in one.faults for test in measurements_of(fault)
        )
        every += [Question("measure", (), test) for test in tests]
        yield from (one for one in every if one not in self._asked)

    def _keys(self) -> list[int]:
        """Return the keys that the faults are of, the likeliest ones' first."""
        keys = dict.fromkeys(
            key for one in self.left for effect in one.explanation.effects for key in effect.keys
        )
        return sorted(islice(keys, MOST_KEYS))

    def _bits(self, question: Question) -> float:
        """Return how much the answer to a question is expected to tell, in bits."""
        shares: dict[Hashable, float] = {}
        for one in self.left:
            answer = self.answer(question, one)
            shares[answer] = shares.get(answer, 0.0) + one.weight
        total = sum(shares.values())
        return sum(-share / total * log2(share / total) for share in shares.values())
