"""The keys of a plate as points, and what hops between them need.

Along a row the diodes' own leads reach from one switch to the next: such a hop needs no wire, and a
longer one is a jumper. Along a column every hop is wire.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import pairwise
from math import dist, log

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

JUMPER_MM = Planned(
    12.0,
    "the wire that is as dear as one more jumper: a piece to cut, and two ends to solder",
    "chosen: with it the layouts of tests/bench/fit_speed.py have less wire and fewer jumpers "
    "than without",
)

NEARNESS = 0.25
"""How fast the chance falls to meet a neighbour, from each to the next further one."""

LOTS = 64
"""How many lots are drawn from for a neighbour."""

KeyRun = tuple[int, ...]
Orders = dict[KeyRun, KeyRun]


class Plan(Record):
    """The middles of the keys in millimetres, and the wire that hops between them need."""

    points: tuple[Point, ...]

    @cached_property
    def distances(self) -> list[list[float]]:
        """The straight way from each key to each other one, in millimetres."""
        return [[round(dist(one, other), 6) for other in self.points] for one in self.points]

    @cached_property
    def row_hops(self) -> list[list[float]]:
        """What a hop of a row costs: next to nothing within a lead's reach, else a jumper."""
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
    def nearby(self) -> list[list[int]]:
        """Neighbours of each key, of which one drawn by lot is rather a near one than a far one."""
        chances = ((lot + 0.5) / LOTS for lot in range(LOTS))
        places = [int(-log(1 - chance) / NEARNESS) for chance in chances]
        found = []
        for key, hops in enumerate(self.distances):
            by_distance = sorted((mm, other) for other, mm in enumerate(hops) if other != key)
            last = len(by_distance) - 1
            found.append([by_distance[min(place, last)][1] for place in places])
        return found

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
    return TIDY * mm + (0.0 if within_reach(mm) else mm + JUMPER_MM.value)
