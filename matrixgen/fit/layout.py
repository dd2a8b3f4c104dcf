"""Which keys are on which row and which column, and in which order each wire visits them."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.circuit.planned import LEAD_METRE
from matrixgen.fit.order import cost
from matrixgen.fit.plan import Plan
from matrixgen.record import Record

Runs = tuple[tuple[int, ...], ...]
"""Wires, each the keys it visits in order; a key is its place on the plate."""


class Layout(Record):
    """Rows and columns over the keys of a plan: each key on one of both, no two on the same two."""

    plan: Plan
    rows: Runs
    columns: Runs

    @property
    def lines(self) -> int:
        """How many pins it takes."""
        return len(self.rows) + len(self.columns)

    @property
    def jumpers(self) -> int:
        """How many hops of its rows need a piece of wire."""
        return sum(map(self.plan.jumpers, self.rows))

    @property
    def run_mm(self) -> float:
        """The wire from key to key, in millimetres: all of the columns, and the rows' jumpers."""
        rows = sum(map(self.plan.row_wire, self.rows))
        return rows + sum(map(self.plan.column_wire, self.columns))

    @property
    def metres(self) -> float:
        """All of its wire, in metres, with that from each line to the controller."""
        return self.run_mm / 1000 + self.lines * LEAD_METRE.value

    @property
    def cost(self) -> float:
        """What a search makes as small as it can: `run_mm`, the jumpers' work, the leads' ways."""
        rows = sum(cost(run, self.plan.row_hops) for run in self.rows)
        return rows + sum(map(self.plan.column_wire, self.columns))

    @property
    def tidied(self) -> Layout:
        """The same with each wire's keys in the best order."""
        plan = self.plan
        rows, columns = map(plan.row_order, self.rows), map(plan.column_order, self.columns)
        return Layout(plan, tuple(rows), tuple(columns))

    def in_order(self) -> Layout:
        """Return the same as one reads a plate: rows from the top, columns from the left.

        Each run starts at its end that is further left, or in a column, further up.
        """
        points, plan = self.plan.points, self.plan
        rows = (_starting_at(run, [points[key] for key in run]) for run in self.rows)
        columns = (_starting_at(run, [points[key][::-1] for key in run]) for run in self.columns)
        return Layout(
            plan,
            tuple(map(tuple, plan.from_top(rows))),
            tuple(map(tuple, plan.from_left(columns))),
        )


def _starting_at(run: Sequence[int], along: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """Return a run that begins at the lesser of its ends."""
    return tuple(run) if along[0] <= along[-1] else tuple(run[::-1])
