"""The keys of a plate as points, and what hops between them need.

Along a row the diodes' own leads reach from one switch to the next: such a hop needs no wire, and a
longer one is a jumper. Along a column every hop is wire.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import pairwise
from math import dist
from random import Random

from matrixgen.circuit.planned import Planned
from matrixgen.fit.order import best_order
from matrixgen.model.geometry import Point
from matrixgen.record import Record

LEAD_REACH_MM = Planned(
    19.05,
    "as far as the bent lead of a diode reaches, from switch to switch",
    "one key unit, common practice, no source; a lead is 25.4 mm long at least (DO-35 drawing, "
    "Vishay 81857), and a part of it goes round the switch's pin",
)

ROUNDING_MM = 0.1
"""By how much a hop may be longer than the reach: half of what layouts are rounded to."""

TIDY = 1e-3
"""Of two layouts with as much wire, the one whose leads go a shorter way is tidier."""

Run = tuple[int, ...]
Orders = dict[Run, Run]


class Plan(Record):
    """The middles of the keys in millimetres, and the wire that hops between them need."""

    points: tuple[Point, ...]

    @cached_property
    def distances(self) -> list[list[float]]:
        """The straight way from each key to each other one, in millimetres."""
        return [[round(dist(one, other), 6) for other in self.points] for one in self.points]

    @cached_property
    def row_hops(self) -> list[list[float]]:
        """What a hop of a row costs: next to nothing within a lead's reach, else its length."""
        return [[_row_hop(mm) for mm in row] for row in self.distances]

    def row_wire(self, run: Sequence[int]) -> float:
        """Return the wire of a row's jumpers, in millimetres."""
        return sum(hop for hop in self._hops(run) if not within_reach(hop))

    def column_wire(self, run: Sequence[int]) -> float:
        """Return the wire of a column from its first to its last key, in millimetres."""
        return sum(self._hops(run))

    def jumpers(self, run: Sequence[int]) -> int:
        """Return how many hops of a row no lead reaches across."""
        return sum(not within_reach(hop) for hop in self._hops(run))

    @cached_property
    def near(self) -> list[list[int]]:
        """The other keys of each key, the nearest first."""
        everyone = range(len(self.points))
        return [
            sorted(everyone, key=lambda other: (self.distances[key][other], other))[1:]
            for key in everyone
        ]

    def neighbour(self, key: int, nearness: float, chance: Random) -> int:
        """Return another key by chance, a near one rather than a far one; the key itself if alone.

        `nearness` is how fast the chance falls from each neighbour to the next further one.
        """
        near = self.near[key]
        place = int(chance.expovariate(nearness))
        return near[min(place, len(near) - 1)] if near else key

    def along(
        self, runs: Iterable[Sequence[int]], others: Iterable[Sequence[int]]
    ) -> list[list[int]]:
        """Return runs in the order in which most of the others go through them."""
        ends = [(self.points[run[0]], self.points[run[-1]]) for run in others]
        x = sum(end[0] - start[0] for start, end in ends)
        y = sum(end[1] - start[1] for start, end in ends)
        return sorted(
            map(list, runs),
            key=lambda run: (round(self._middle(run, 0) * x + self._middle(run, 1) * y, 3), run),
        )

    def from_top(self, runs: Iterable[Sequence[int]]) -> list[list[int]]:
        """Return rows as one reads a plate: from the top."""
        return sorted(map(list, runs), key=lambda run: (self._middle(run, 1), run))

    def from_left(self, runs: Iterable[Sequence[int]]) -> list[list[int]]:
        """Return columns as one reads a plate: from the left."""
        return sorted(map(list, runs), key=lambda run: (self._middle(run, 0), run))

    def row_order(self, keys: Iterable[int]) -> tuple[int, ...]:
        """Return the keys of a row in the best order."""
        return self._best(tuple(keys), self.row_hops, self._row_orders)

    def column_order(self, keys: Iterable[int]) -> tuple[int, ...]:
        """Return the keys of a column in the best order."""
        return self._best(tuple(keys), self.distances, self._column_orders)

    def _best(
        self, run: tuple[int, ...], hops: list[list[float]], known: Orders
    ) -> tuple[int, ...]:
        if run not in known:
            known[run] = tuple(best_order(run, hops))
        return known[run]

    @cached_property
    def _row_orders(self) -> Orders:
        """The best orders that are known already: a search asks for the same ones often."""
        return {}

    @cached_property
    def _column_orders(self) -> Orders:
        return {}

    def _middle(self, run: Sequence[int], axis: int) -> float:
        return round(sum(self.points[key][axis] for key in run) / len(run), 6)

    def _hops(self, run: Sequence[int]) -> list[float]:
        return [self.distances[one][other] for one, other in pairwise(run)]


def within_reach(mm: float) -> bool:
    """Whether a diode's lead reaches across a hop."""
    return mm <= LEAD_REACH_MM.value + ROUNDING_MM


def _row_hop(mm: float) -> float:
    return TIDY * mm + (0.0 if within_reach(mm) else mm)
