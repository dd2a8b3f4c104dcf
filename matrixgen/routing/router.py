"""The shortest route for each hop round what is in its way, and beside the wires that lie already.

A hop goes straight if nothing is in its way. Otherwise it takes the shortest route over the corners
of what is. To be told apart, wires are then laid one after the other, each in lanes that are free;
where those of the shortest route are not, the route looks for other gaps between switches.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import pairwise
from math import dist
from typing import NamedTuple

from matrixgen.model import Plate
from matrixgen.model.geometry import Point
from matrixgen.routing.board import BoardOnPlate
from matrixgen.routing.corners import Corners, End, Patience, own_of
from matrixgen.routing.grid import extent_of
from matrixgen.routing.laid import LaidWires, WirePiece
from matrixgen.routing.lanes import LANE_MM, LANES, NEAREST_MM, Found, Lanes, Search
from matrixgen.routing.obstacles import Obstacles
from matrixgen.routing.places import Joint, Placed, Route

NEAR_MM, FAR_MM = 63.0, 250.0
"""How far corners may be from each other that are joined by a straight piece: some three key units,
and where there is no route then, the width of a gap between two halves."""

CROWDED = 2.0 / LANES
"""What each wire in a gap adds to the length of a route through it, while a less crowded one is
looked for: a full gap counts three times as long (a choice)."""


class Routed(NamedTuple):
    """A hop's route, or None where there is none, or where none was looked for any more.

    `is_in_haste` where the patience to lay it beside others was spent.
    """

    route: Route | None
    is_left_out: bool = False
    is_in_haste: bool = False


class _Task(NamedTuple):
    """A hop to lay: which one of which wire, its ends, and its shortest route at a clearance."""

    wire: int
    hop: int
    ends: tuple[End, End]
    route: Route
    clearance: float

    @property
    def order(self) -> tuple[bool, float]:
        """Straight hops are laid first, and then shorter ones: they have the least choice."""
        return len(self.route) > 2, sum(dist(one, other) for one, other in pairwise(self.route))


class Router:
    """What lies on a plate's back, asked for routes between joints."""

    def __init__(
        self,
        plate: Plate,
        switches: Sequence[Placed],
        patience: Patience,
        board: BoardOnPlate | None = None,
    ) -> None:
        self._patience = patience
        self._switches = switches
        names = (one.key.name.text for one in switches)
        self._number = {name: number for number, name in enumerate(names)}
        in_the_way = (board.corners,) if board and board.is_between_keys else ()
        self._obstacles = cache(lambda clearance: Obstacles(plate, switches, clearance, in_the_way))
        self._corners = cache(
            lambda clearance, farthest: Corners(self._obstacles(clearance), farthest, patience)
        )

    def routed(self, runs: Sequence[Sequence[Joint]]) -> list[list[Routed]]:
        """Return what was found for each hop of each run: the shortest routes."""
        return [[self._shortest(*hop)[0] for hop in pairwise(joints)] for joints in runs]

    def apart(self, runs: Sequence[Sequence[Joint]], patience: Patience) -> list[list[Routed]]:
        """Return the same with wires beside each other, as long as there is patience for that."""
        found: list[list[Routed]] = [[] for _ in runs]
        tasks = []
        for wire, joints in enumerate(runs):
            for hop, (start, end) in enumerate(pairwise(joints)):
                routed, clearance = self._shortest(start, end)
                found[wire].append(routed)
                route = routed.route or (start.at, end.at)
                tasks.append(_Task(wire, hop, self._ends(start, end), route, clearance))
        laid = LaidWires(extent_of([one.middle for one in self._switches]))
        lanes = Lanes(self._obstacles, self._switches, laid, patience)
        for task, route in self._laid(tasks, lanes).items():
            if found[task.wire][task.hop].route:
                found[task.wire][task.hop] = Routed(route, is_in_haste=patience.is_spent)
        return found

    def _laid(self, tasks: Iterable[_Task], lanes: Lanes) -> dict[_Task, Route]:
        """Lay all hops, and those once more that lie on others now: they may have made room."""
        routes: dict[_Task, Route] = {}
        for task in sorted(tasks, key=lambda one: one.order):
            routes[task] = self._beside(task, task.route, lanes)
            lanes.laid.lay(routes[task], task.wire)
        for task, before in routes.items():
            lanes.laid.take_up(before, task.wire)
            routes[task] = self._beside(task, before, lanes)
            lanes.laid.lay(routes[task], task.wire)
        return routes

    def _beside(self, task: _Task, route: Route, lanes: Lanes) -> Route:
        """Return a hop's route, if need be another one: where all is taken, on what lies there."""
        if lanes.patience.is_spent:
            return route
        best = Found(route, lanes.price_of(route, task.ends, task.wire))
        if not best.price:
            return best.route
        for way in self._other_ways(task, lanes.laid):
            obstacles = self._obstacles(task.clearance)
            found = Search(lanes, way, task.ends, task.wire, obstacles).found()
            if found and _cost(found) < _cost(best):
                best = found
            if not best.price:
                break
        return best.route

    def _other_ways(self, task: _Task, laid: LaidWires) -> Iterable[Route]:
        """Yield the shortest route, and then one through gaps that are less crowded."""
        yield task.route
        joints = task.route[0], task.route[-1]

        def price(one: Point, other: Point) -> float:
            before = laid.looked_at
            shared = laid.shared_mm(WirePiece(one, other, task.wire, joints), LANES * LANE_MM)
            self._patience.left -= laid.looked_at - before
            return CROWDED * shared

        route = self._corners(task.clearance, NEAR_MM).shortest(*task.ends, price)
        if route:
            yield route

    def _ends(self, start: Joint, end: Joint) -> tuple[End, End]:
        return End(self._number.get(start.key), start.at), End(self._number.get(end.key), end.at)

    def _shortest(self, start: Joint, end: Joint) -> tuple[Routed, float]:
        """Return a hop's shortest route, and at which clearance it was found."""
        ends = self._ends(start, end)
        if self._obstacles(0.0).is_free(start.at, end.at, own_of(ends)):
            return Routed((start.at, end.at)), NEAREST_MM
        for clearance, far in ((NEAREST_MM, NEAR_MM), (NEAREST_MM, FAR_MM), (0.0, FAR_MM)):
            if route := self._corners(clearance, far).shortest(*ends):
                return Routed(route), clearance
        return Routed(None, is_left_out=self._patience.is_spent), 0.0


def _cost(found: Found) -> float:
    return found.price + sum(dist(one, other) for one, other in pairwise(found.route))
