"""The shortest route for each hop round what is in its way.

A hop goes straight if nothing is in its way. Otherwise it takes the shortest route over the corners
of what is. Wires that would take the same route keep some distance from each other: each goes round
at a clearance of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from matrixgen.model import Plate
from matrixgen.routing.corners import Corners, End, Patience
from matrixgen.routing.obstacles import Obstacles
from matrixgen.routing.places import Joint, Placed, Route

NEAREST_MM, LANE_MM, LANES = 0.4, 0.35, 5
"""Clearances: of the first wire that goes round something, what each further one adds, and after
how many the first comes again. Five fit in between two switches, 5.05 mm from each other."""

NEAR_MM, FAR_MM = 63.0, 250.0
"""How far corners may be from each other that are joined by a straight piece: some three key units,
and where there is no route then, the width of a gap between two halves."""


class Routed(NamedTuple):
    """A hop's route, or None where there is none, or where none was looked for any more."""

    route: Route | None
    is_left_out: bool = False


class Router:
    """What lies on a plate's back, asked for routes between joints."""

    def __init__(self, plate: Plate, switches: Sequence[Placed], patience: Patience) -> None:
        self._patience = patience
        self._number = {one.key.name.text: number for number, one in enumerate(switches)}
        self._obstacles = cache(lambda clearance: Obstacles(plate, switches, clearance))
        self._corners = cache(
            lambda clearance, farthest: Corners(self._obstacles(clearance), farthest, patience)
        )

    def routed(self, runs: Sequence[Sequence[Joint]]) -> list[list[Routed]]:
        """Return what was found for each hop of each run."""
        lane = 0
        found = []
        for joints in runs:
            routes = [self._route(start, end, lane) for start, end in pairwise(joints)]
            lane += any(one.route is None or len(one.route) > 2 for one in routes)
            found.append(routes)
        return found

    def _route(self, start: Joint, end: Joint, lane: int) -> Routed:
        ends = End(self._number[start.key], start.at), End(self._number[end.key], end.at)
        own = [one.switch for one in ends]
        if self._obstacles(0.0).is_free(start.at, end.at, own):
            return Routed((start.at, end.at))
        of_lane = NEAREST_MM + LANE_MM * (lane % LANES)
        for clearance, far in ((of_lane, NEAR_MM), (NEAREST_MM, NEAR_MM), (NEAREST_MM, FAR_MM)):
            if route := self._corners(clearance, far).shortest(*ends):
                return Routed(route)
        route = self._corners(0.0, FAR_MM).shortest(*ends)
        return Routed(route, is_left_out=route is None and self._patience.is_spent)
