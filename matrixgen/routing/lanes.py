"""A route moved a little, so that its wire lies beside those that lie already and not on them.

Round each obstacle there are lanes: its outline grown by one clearance, by two, and so on. A route
is found once more, by A* over the lanes' corners near the route as it was, where each millimetre
that would lie on another wire costs many of a detour.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import pairwise, product
from math import dist, hypot
from typing import NamedTuple

from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point
from matrixgen.model.switch import UNIT_MM
from matrixgen.routing.corners import End, Patience, own_of
from matrixgen.routing.laid import APART_MM, LaidWires, WirePiece
from matrixgen.routing.obstacles import Obstacles
from matrixgen.routing.places import Placed, Route

NEAREST_MM, LANE_MM, LANES = 0.5, 1.01, 5
"""The first lane's distance from what it goes round, what each further one adds, and how many there
are. Five fit in between two switches, 5.05 mm from each other."""

CORRIDOR_MM = 6.0
"""How far from the route as it was the lanes' corners may be: across the gap of two switches."""

NEXT_MM, NEXT = 75.0, 100
"""How far along the route the next corner may be; where there are few, it is one of the next so
many."""

BEND_OFF_MM = 5.0
"""How far from the ends of a long piece a route may bend away from it in open country."""

SHARED_COSTS, BEND_COSTS = 20.0, 0.3
"""What a millimetre on another wire and what a bend counts, in millimetres of a detour (a choice:
what is hidden costs an evening, what is longer a few centimetres of wire)."""

SLACK_MM = 3.0
"""By how much a way along the lanes may be shorter than the rest of the route as it was, or go
back along it."""

ASKED = 10
"""How much patience it takes to ask whether a piece is free: as much as so many thoughts."""

HASTE, HASTIER_AFTER = 1.05, 30_000
"""How much more the way that is left counts than the way so far: a route is found in a third of the
time, and costs at most so many times as much as the cheapest (Pohl 1970, from memory). After so
many thoughts about one hop it counts once more."""


class Corner(NamedTuple):
    """Where a route may bend, and how far along the route as it was that is."""

    along: float
    at: Point


class Found(NamedTuple):
    """A route, and what it costs beside its length: what of it lies on other wires."""

    route: Route
    price: float


class Lanes:
    """The lanes of a plate, and the wires that lie on them."""

    def __init__(
        self,
        obstacles: Callable[[float], Obstacles],
        switches: Sequence[Placed],
        laid: LaidWires,
        patience: Patience,
    ) -> None:
        self.lanes = [obstacles(NEAREST_MM + LANE_MM * lane) for lane in range(LANES)]
        self.laid = laid
        self.patience = patience
        self._spots = [_spots(one) for one in switches]

    def price(self, piece: WirePiece, ends: tuple[End, End]) -> float:
        """Return what a piece costs beside its length, on other wires or over a leg."""
        before = self.laid.looked_at
        price = SHARED_COSTS * self.laid.shared_mm(piece)
        self.patience.left -= self.laid.looked_at - before
        for spot in {spot for switch in own_of(ends) for spot in self._spots[switch]}:
            if spot not in piece.joints and distance(spot, piece.start, piece.end) < APART_MM:
                price += SHARED_COSTS
        return price

    def price_of(self, route: Route, ends: tuple[End, End], wire: int) -> float:
        """Return what a route costs beside its length, as it is."""
        joints = route[0], route[-1]
        return sum(
            self.price(WirePiece(one, other, wire, joints), ends) for one, other in pairwise(route)
        )

    def corners_near(self, route: Route, own: Sequence[int]) -> list[Corner]:
        """Return the corners of all lanes, and those of the route itself, that are near it."""
        near = sorted(
            {n for piece in pairwise(route) for n in self.lanes[0].near(*piece, CORRIDOR_MM)}
        )
        found = dict.fromkeys((*route[1:-1], *_beside(route)))
        for lane in self.lanes:
            found |= dict.fromkeys(at for n in near for at in lane.shape_corners(n))
            found |= dict.fromkeys(at for n in own for at in lane.post_corners(n))
        placed = (_along(at, route) for at in found)
        return sorted(Corner(along, at) for along, beside, at in placed if beside <= CORRIDOR_MM)


class Search:
    """A search for a route beside one that was found past obstacles at some clearance."""

    def __init__(
        self, lanes: Lanes, route: Route, ends: tuple[End, End], wire: int, obstacles: Obstacles
    ) -> None:
        self._lanes, self._ends, self._wire, self._obstacles = lanes, ends, wire, obstacles
        self._patience = lanes.patience.left
        self._own = own_of(ends)
        self._long = sum(dist(one, other) for one, other in pairwise(route))
        inner = lanes.corners_near(route, self._own)
        self._corners = [Corner(0.0, route[0]), *inner, Corner(self._long, route[-1])]

    def found(self) -> Found | None:
        """Return the cheapest route; None once there is no patience left.

        Whether a piece is free, and what it costs, is asked only once no other is cheaper.
        """
        goal = len(self._corners) - 1
        waiting: list[tuple[float, float, float, bool, int, int]] = [(0.0, 0.0, 0.0, True, 0, 0)]
        before: dict[int, tuple[int, float]] = {}
        while waiting and not self._lanes.patience.is_spent:
            _, cost, price, is_priced, at, came = heappop(waiting)
            if at in before:
                continue
            if not is_priced:
                if not self._is_free(came, at):
                    continue
                if more := self._price(came, at):
                    cost, price = cost + more, price + more
                    heappush(waiting, (cost + self._left(at), cost, price, True, at, came))
                    continue
            before[at] = came, price
            if at == goal:
                return Found(self._route(before), price)
            for other, long in self._next(at):
                self._lanes.patience.left -= 1
                if other not in before:
                    so_far = cost + long + BEND_COSTS
                    guess = so_far + self._left(other)
                    heappush(waiting, (guess, so_far, price, False, other, at))
        return None

    def _next(self, number: int) -> Iterator[tuple[int, float]]:
        """Yield where a route may go on to, and how far that is."""
        along, at = self._corners[number]
        goal = len(self._corners) - 1
        first = bisect_left(self._corners, along - SLACK_MM, lo=1, key=lambda one: one.along)
        last = bisect_left(self._corners, along + NEXT_MM, lo=1, key=lambda one: one.along)
        for other in range(first, min(goal, max(last, first + NEXT))):
            if other != number:
                yield other, dist(at, self._corners[other].at)
        yield goal, dist(at, self._corners[goal].at)

    def _left(self, number: int) -> float:
        """Return what is left of the way, at least."""
        corner = self._corners[number]
        rest = self._long - corner.along - SLACK_MM
        thoughts = self._patience - self._lanes.patience.left
        return (HASTE + thoughts / HASTIER_AFTER) * max(dist(corner.at, self._corners[-1].at), rest)

    def _is_free(self, one: int, other: int) -> bool:
        start, end = self._corners[one].at, self._corners[other].at
        self._lanes.patience.left -= ASKED + int(dist(start, end) / UNIT_MM)
        return self._obstacles.is_free(start, end, self._own)

    def _price(self, one: int, other: int) -> float:
        joints = self._corners[0].at, self._corners[-1].at
        piece = WirePiece(self._corners[one].at, self._corners[other].at, self._wire, joints)
        return self._lanes.price(piece, self._ends)

    def _route(self, before: dict[int, tuple[int, float]]) -> Route:
        found = [len(self._corners) - 1]
        while found[-1]:
            found.append(before[found[-1]][0])
        return tuple(self._corners[number].at for number in reversed(found))


def _beside(route: Route) -> Iterator[Point]:
    """Yield places in lanes beside a route's long pieces, where there need not be an obstacle."""
    for (x, y), (u, v) in pairwise(route):
        long = hypot(u - x, v - y)
        if long < 4 * BEND_OFF_MM:
            continue
        along, down = (u - x) / long, (v - y) / long
        for lane, far in product(range(-LANES, LANES + 1), (BEND_OFF_MM, long - BEND_OFF_MM)):
            if lane:
                off = lane * LANE_MM
                yield x + along * far - down * off, y + down * far + along * off


def _spots(switch: Placed) -> tuple[Point, ...]:
    """Return what no wire may lie on that is not joined there: legs, and a diode's end."""
    end = (switch.diode.end,) if switch.diode else ()
    return (switch.near, switch.far, *end)


def _along(at: Point, route: Route) -> tuple[float, float, Point]:
    """Return how far along a route the place next to a point is, how far that is, and the point."""
    nearest, found, so_far = float("inf"), 0.0, 0.0
    for (x, y), (u, v) in pairwise(route):
        long = hypot(u - x, v - y) or 1e-9
        part = ((at[0] - x) * (u - x) + (at[1] - y) * (v - y)) / long
        part = min(long, max(0.0, part))
        beside = hypot(at[0] - x - part * (u - x) / long, at[1] - y - part * (v - y) / long)
        if beside < nearest - 1e-9:
            nearest, found = beside, so_far + part
        so_far += long
    return found, nearest, at
