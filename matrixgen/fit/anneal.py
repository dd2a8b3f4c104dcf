"""From a layout to a better one: key by key, to another row or column (simulated annealing).

A key goes beside a near neighbour, on that neighbour's wire. Where that wire has a key on the same
wire of the other axis already, that key comes back to the first one's place, so that no two keys
ever are on the same two lines. A change for the worse is accepted by chance, and ever more seldom
(Kirkpatrick, Gelatt and Vecchi, Science 220, 1983; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import exp
from random import Random

from matrixgen.fit.layout import Layout, Runs
from matrixgen.fit.plan import LOTS
from matrixgen.record import Record

COLDEST_MM = 0.5
"""How many millimetres a change for the worse may be about, at last."""

HOPELESS = 7.0
"""A change so many times worse than that is never made: one in a thousand would be."""

STEPS_A_HEAT = 250
"""How many steps are gone before it gets colder, and before the best layout is looked for."""

LATE = 0.6
"""From which part of a walk on its best layout is looked for: it is never earlier."""

LEAST_GAIN_MM = 1e-6


class _Move(Record):
    """A key that goes to a line, between two others; `back` is the one that takes its place."""

    key: int
    back: int
    line: int
    before: int
    after: int


class _Axis:
    """The wires of one axis, as chains: what is before and after each key, and on which line it is.

    Beside the keys there is *nobody*, whose number is how many keys there are: nobody is before the
    first and after the last of each line, any hop to nobody is free, and what is beside nobody is
    never asked. `cells` has the key of each line on each line of the other axis.
    """

    def __init__(self, runs: Runs, others: int, hops: Sequence[Sequence[float]]) -> None:
        keys = self.nobody = len(hops)
        self.hops = [[*row, 0.0] for row in hops] + [[0.0] * (keys + 1)]
        self.before = [keys] * (keys + 1)
        self.after = [keys] * (keys + 1)
        self.line_of = [0] * (keys + 1)
        self.sizes = [len(run) for run in runs]
        self.cells = [[keys] * others for _ in runs]
        for line, run in enumerate(runs):
            for key in run:
                self.line_of[key] = line
            self.chain(keys, *run, keys)

    def chain(self, *keys: int) -> None:
        """Put each of these keys right after the one before it."""
        for one, other in pairwise(keys):
            self.after[one], self.before[other] = other, one

    def move(self, move: _Move) -> None:
        """Take a key and the one that comes back out, and put both where they go."""
        key, back, here = move.key, move.back, self.line_of[move.key]
        before, after = self.before[key], self.after[key]
        self.chain(before, after)
        if back != self.nobody:
            self.chain(self.before[back], self.after[back])
            self.chain(before, back, after)
            self.line_of[back] = here
        else:
            self.sizes[here] -= 1
            self.sizes[move.line] += 1
        self.chain(move.before, key, move.after)
        self.line_of[key] = move.line

    def put_into_cells(self, move: _Move, here: int, other: _Axis) -> None:
        """Tell both axes who is where they meet, after a move to another line."""
        crossed = other.line_of[move.key]
        self.cells[here][crossed] = other.cells[crossed][here] = move.back
        self.cells[move.line][crossed] = other.cells[crossed][move.line] = move.key

    def runs(self) -> Runs:
        """Return the keys of each line in order."""
        found: list[list[int]] = [[] for _ in self.sizes]
        for first in range(self.nobody):
            key = first if self.before[first] == self.nobody else self.nobody
            while key != self.nobody:
                found[self.line_of[key]].append(key)
                key = self.after[key]
        return tuple(map(tuple, found))


def anneal(layout: Layout, steps: int, hottest_mm: float, chance: Random) -> Layout:
    """Return the best layout met on a walk of so many steps that begins at this one.

    `hottest_mm` is how many millimetres a change for the worse may be about at first.
    """
    if len(layout.plan.points) < 2:
        return layout
    walk = _Annealing(layout, chance)
    found, least = layout, 0.0
    for done in range(0, steps, STEPS_A_HEAT):
        walk.go(STEPS_A_HEAT, hottest_mm * (COLDEST_MM / hottest_mm) ** (done / steps))
        if done >= LATE * steps and walk.longer_mm < least - LEAST_GAIN_MM:
            found, least = walk.layout(), walk.longer_mm
    return found


class _Annealing:
    """A layout that changes step by step; `longer_mm` is how much its cost has grown."""

    def __init__(self, layout: Layout, chance: Random) -> None:
        plan = self._plan = layout.plan
        self._rows = _Axis(layout.rows, len(layout.columns), plan.row_hops)
        self._columns = _Axis(layout.columns, len(layout.rows), plan.distances)
        for key in range(len(plan.points)):
            row, column = self._rows.line_of[key], self._columns.line_of[key]
            self._rows.cells[row][column] = self._columns.cells[column][row] = key
        self._chance = chance.random
        self.longer_mm = 0.0

    def layout(self) -> Layout:
        return Layout(self._plan, self._rows.runs(), self._columns.runs())

    def go(self, steps: int, heat_mm: float) -> None:
        """Try so many changes, and make some of them.

        It is one long loop, as it runs a million times for a plate's table: calls and attributes
        would take half of the time.
        """
        chance, nearby, nobody = self._chance, self._plan.nearby, self._rows.nobody
        axes = ((self._rows, self._columns), (self._columns, self._rows))
        parts = [(one.hops, one.before, one.after, one.line_of, one.cells) for one, _ in axes]
        hopeless = HOPELESS * heat_mm
        for _ in range(steps):
            turn = chance() < 0.5
            hops, befores, afters, line_of, cells = parts[turn]
            key = int(chance() * nobody)
            beside = nearby[key][int(chance() * LOTS)]
            here, there = line_of[key], line_of[beside]
            of_key, old_before, old_after = hops[key], befores[key], afters[key]
            before, after = befores[beside], afters[beside]
            longer = -of_key[old_before] - of_key[old_after]
            back = nobody
            if here == there:
                if beside in (old_before, old_after):
                    continue
                longer += hops[old_before][old_after]
            else:
                one, other = axes[turn]
                back = cells[there][other.line_of[key]]
                if back == nobody:
                    if one.sizes[here] == 1:
                        continue
                    longer += hops[old_before][old_after]
                else:
                    of_back, left, right = hops[back], befores[back], afters[back]
                    longer += of_back[old_before] + of_back[old_after]
                    longer -= of_back[left] + of_back[right]
                    if back != beside:
                        longer += hops[left][right]
                        before = left if before == back else before
                        after = right if after == back else after
            if back == beside:
                longer += of_key[before] + of_key[after]
            else:
                of_beside = hops[beside]
                if_before = of_key[before] - of_beside[before]
                if_after = of_key[after] - of_beside[after]
                longer += of_key[beside]
                if if_before < if_after:
                    longer, after = longer + if_before, beside
                else:
                    longer, before = longer + if_after, beside
            if longer >= 0 and (longer > hopeless or chance() >= exp(-longer / heat_mm)):
                continue
            self.longer_mm += longer
            self._make(turn, _Move(key, back, there, before, after))

    def _make(self, turn: bool, move: _Move) -> None:
        one, other = (self._columns, self._rows) if turn else (self._rows, self._columns)
        here = one.line_of[move.key]
        one.move(move)
        if here != move.line:
            one.put_into_cells(move, here, other)
