"""The shortest route between two keys over the corners of obstacles: A* on a visibility graph."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from heapq import heappop, heappush
from math import dist
from typing import Literal

from matrixgen.model.geometry import Point
from matrixgen.model.tiles import Tiles
from matrixgen.record import Record
from matrixgen.routing.obstacles import Obstacles
from matrixgen.routing.places import Route

SAME_LENGTH = 6
"""Digits of a millimetre to which routes are equally long: then the one of fewer pieces."""

MOST_FOR_SHORTEST = 60_000
"""Pieces that are thought of for one shortest route: after that, any good route does."""

ASKED, MANY_SHAPES = 4, 10
"""As many pieces are thought of in the time in which one is asked whether it is free, and one more
for each so many obstacles that lie there."""

HASTE = 3.0
"""How much more the way that is left counts then than the way so far: a route is found much sooner,
and is at most so many times as long as the shortest one (Pohl 1970, from memory)."""

Price = Callable[[Point, Point], float]
"""What a straight piece counts beside its length, in millimetres."""


def free(one: Point, other: Point) -> float:
    """Return the price of a piece where none has any."""
    return 0.0


Kind = Literal["start", "corner", "end"]
Node = tuple[Kind, Point]


class End(Record):
    """Where a route begins or ends: a place on a switch, given by its number in plate order.

    The number is None where it is a place on no switch.
    """

    switch: int | None
    at: Point


def own_of(ends: Iterable[End]) -> list[int]:
    """Return the switches that some ends are on."""
    return [end.switch for end in ends if end.switch is not None]


class Patience:
    """Pieces of wire that may still be thought of while routes are looked for."""

    def __init__(self, pieces: int) -> None:
        self.left = pieces
        self._half = pieces // 2

    @property
    def for_shortest(self) -> int:
        """How many may be thought of for the shortest route of a hop: none once half are spent."""
        return min(MOST_FOR_SHORTEST, self.left - self._half)

    @property
    def is_spent(self) -> bool:
        """Whether no route is looked for any more."""
        return self.left < 0


class Corners:
    """The corners of obstacles, and which of them see each other.

    Corners that are farther than `farthest` millimetres from each other are taken not to: along a
    channel between switches there are others on the way. Once the patience is spent, no route is
    found.
    """

    def __init__(self, obstacles: Obstacles, farthest: float, patience: Patience) -> None:
        self._patience = patience
        self._obstacles = obstacles
        self._farthest = farthest
        self._seen: dict[tuple[Point, Point], bool] = {}
        self._near_to: dict[Point, list[tuple[Node, float]]] = {}
        self._tiles = Tiles[Point](farthest)
        for corner in obstacles.corners():
            self._tiles.put(corner, corner)

    def shortest(self, start: End, end: End, price: Price = free) -> Route | None:
        """Return the shortest route between two switches past all obstacles; None without one.

        Their own bodies may be crossed on the way out and in. Where looking for the shortest takes
        too long, it is a longer one. A piece counts as so much longer as its price is.
        """
        last = self._patience.left - self._patience.for_shortest
        route = self._search(start, end, 1.0, last, price)
        if route is None and self._patience.left < last:
            return self._search(start, end, HASTE, 0, price)
        return route

    def _search(self, start: End, end: End, haste: float, last: int, price: Price) -> Route | None:
        """Return a route; None without one, or once no more than the last pieces are left.

        Whether a piece is free, and its price, is asked only once no shorter route is left: most
        never are.
        """
        goal: Node = ("end", end.at)
        first: Node = ("start", start.at)
        pieces: list[tuple[float, int, float, Node, Node]] = [(0.0, 0, 0.0, first, first)]
        before: dict[Node, Node] = {}
        priced: set[tuple[Node, Node]] = set()
        while pieces and self._patience.left >= last:
            in_all, bends, length, node, came = heappop(pieces)
            if node in before or not self._is_free(came, node, start, end):
                continue
            if (came, node) not in priced and (more := price(came[1], node[1])):
                priced.add((came, node))
                heappush(pieces, (in_all + more, bends, length + more, node, came))
                continue
            before[node] = came
            if node == goal:
                return _route(before, goal)
            for other, far in self._next(node, start, end):
                self._patience.left -= 1
                if other not in before:
                    so_far = length + far
                    in_all = round(so_far + haste * dist(other[1], end.at), SAME_LENGTH)
                    heappush(pieces, (in_all, bends + 1, so_far, other, node))
        return None

    def _next(self, node: Node, start: End, end: End) -> list[tuple[Node, float]]:
        """Return where a route may go on to from a place, if nothing is in between, and how far."""
        kind, at = node
        found = self._near(at) if kind != "end" else []
        if kind == "start":
            found = [*(self._far(at, "start", place) for place in self._places_on(start)), *found]
        if kind != "corner" or dist(at, end.at) <= self._farthest:
            found = [*found, *(self._far(at, "end", place) for place in self._places_on(end))]
        return found

    def _far(self, at: Point, kind: Kind, place: Point) -> tuple[Node, float]:
        return (kind, place), dist(at, place)

    def _is_free(self, one: Node, other: Node, start: End, end: End) -> bool:
        if one[0] != "corner" or other[0] != "corner":
            kinds = {one[0], other[0]}
            ends = (at for kind, at in (("start", start), ("end", end)) if kind in kinds)
            return self._is_past_all(one[1], other[1], own_of(ends))
        pair = (one[1], other[1]) if one[1] < other[1] else (other[1], one[1])
        if pair not in self._seen:
            self._seen[pair] = self._is_past_all(*pair, [])
        return self._seen[pair]

    def _is_past_all(self, start: Point, end: Point, own: Sequence[int]) -> bool:
        """Ask the obstacles, which takes as long as to think of some pieces."""
        before = self._obstacles.looked_at
        is_free = self._obstacles.is_free(start, end, own)
        self._patience.left -= ASKED + (self._obstacles.looked_at - before) // MANY_SHAPES
        return is_free

    def _places_on(self, end: End) -> Sequence[Point]:
        """Return where a route may bend or begin on a switch: at its post's corners, its joint."""
        posts = () if end.switch is None else self._obstacles.post_corners(end.switch)
        return [end.at, *posts]

    def _near(self, at: Point) -> list[tuple[Node, float]]:
        """Return the corners that are near enough to a place to be seen from it, and how near."""
        if at not in self._near_to:
            with_far = (self._far(at, "corner", corner) for corner in self._tiles.near(at))
            self._near_to[at] = [one for one in with_far if one[1] <= self._farthest]
        return self._near_to[at]


def _route(before: dict[Node, Node], goal: Node) -> Route:
    """Return the places of a route, from its start on."""
    found = [goal]
    while before[found[-1]] != found[-1]:
        found.append(before[found[-1]])
    return tuple(at for _, at in reversed(found))
