"""From a good layout to a better one: key by key, to another row or column (simulated annealing).

A key goes to the row of a near neighbour; where that row has a key on the same column already, that
key comes back in exchange, so that no two keys ever are on the same two lines. Each key is put in
where it lengthens its wire least. A change for the worse is accepted by chance, and ever more
seldom (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983; from memory).
"""

from __future__ import annotations

from math import exp
from random import Random

from matrixgen.fit.layout import Layout
from matrixgen.fit.order import cost
from matrixgen.fit.plan import Plan

HOTTEST_MM, COLDEST_MM = 12.0, 0.3
"""How many millimetres a change for the worse may be about, at first and at last."""

NEARNESS = 0.25
"""How fast the chance falls that a key goes to the row of one that is further away."""

LEAST_GAIN = 1e-6


class _Axis:
    """The wires of one axis: the keys of each in order, and what it costs."""

    def __init__(self, runs: tuple[tuple[int, ...], ...], hops: list[list[float]]) -> None:
        self.hops = hops
        self.runs = [list(run) for run in runs]
        self.costs = [cost(run, hops) for run in runs]
        self.line_of = {key: line for line, run in enumerate(runs) for key in run}

    def put(self, line: int, run: list[int], costs: float) -> None:
        self.runs[line], self.costs[line] = run, costs
        for key in run:
            self.line_of[key] = line

    def exchanged(self, line: int, out: int | None, into: int | None) -> tuple[list[int], float]:
        """Return a wire without one key and with another where it lengthens it least, its cost."""
        run = [key for key in self.runs[line] if key != out]
        if into is not None and run:
            run.insert(self._place(run, self.hops[into]), into)
        elif into is not None:
            run = [into]
        return run, cost(run, self.hops)

    def _place(self, run: list[int], to: list[float]) -> int:
        """Return where a key lengthens a wire least, from its hops to others."""
        place, least = 0, to[run[0]]
        before = run[0]
        for number, after in enumerate(run[1:], start=1):
            longer = to[before] + to[after] - self.hops[before][after]
            if longer < least:
                place, least = number, longer
            before = after
        return len(run) if to[before] < least else place


def anneal(layout: Layout, steps: int, chance: Random) -> Layout:
    """Return the best layout met on a walk of so many steps that begins at this one."""
    return _Walk(layout, chance).go(steps)


class _Walk:
    """A layout that changes step by step."""

    def __init__(self, layout: Layout, chance: Random) -> None:
        self._plan: Plan = layout.plan
        self._rows = _Axis(layout.rows, layout.plan.row_hops)
        self._columns = _Axis(layout.columns, layout.plan.distances)
        self._chance = chance
        self._cost = sum(self._rows.costs) + sum(self._columns.costs)

    def go(self, steps: int) -> Layout:
        best, least = self._layout(), self._cost
        for number in range(steps):
            heat = HOTTEST_MM * (COLDEST_MM / HOTTEST_MM) ** (number / steps)
            if self._step(heat) and self._cost < least - LEAST_GAIN:
                best, least = self._layout(), self._cost
        return best

    def _layout(self) -> Layout:
        rows, columns = (tuple(map(tuple, a.runs)) for a in (self._rows, self._columns))
        return Layout(self._plan, rows, columns)

    def _step(self, heat: float) -> bool:
        """Try one change, and tell whether it was made."""
        axis, other = self._rows, self._columns
        if self._chance.random() < 0.5:
            axis, other = other, axis
        key = int(self._chance.random() * len(axis.line_of))
        beside = self._plan.neighbour(key, NEARNESS, self._chance)
        here, there = axis.line_of[key], axis.line_of[beside]
        if here == there:
            return False
        back = self._met(axis.runs[there], other.line_of, other.line_of[key])
        if back is None and len(axis.runs[here]) == 1:
            return False
        return self._exchange(axis, (here, key), (there, back), heat)

    @staticmethod
    def _met(run: list[int], line_of: dict[int, int], line: int) -> int | None:
        """Return the key of a wire that is on a certain line of the other axis, if any."""
        return next((key for key in run if line_of[key] == line), None)

    def _exchange(
        self, axis: _Axis, one: tuple[int, int], two: tuple[int, int | None], heat: float
    ) -> bool:
        (here, key), (there, back) = one, two
        new_here, cost_here = axis.exchanged(here, key, back)
        new_there, cost_there = axis.exchanged(there, back, key)
        worse = cost_here + cost_there - axis.costs[here] - axis.costs[there]
        if worse > 0 and self._chance.random() >= exp(-worse / heat):
            return False
        axis.put(here, new_here, cost_here)
        axis.put(there, new_there, cost_there)
        self._cost += worse
        return True
