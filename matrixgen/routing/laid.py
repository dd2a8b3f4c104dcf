"""Pieces of wire that lie already, and how far a further one would run on or close to them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise
from math import dist, hypot
from typing import NamedTuple

from matrixgen.model.geometry import Point
from matrixgen.routing.grid import Grid, GridCell
from matrixgen.routing.places import Route

APART_MM = 1.0
"""How far from each other two wires that run the same way are told apart (a choice)."""

ROUNDING_MM = 0.02
SAME_WAY = 0.17
"""The sine of the angle below which two pieces run the same way: ten degrees (a choice)."""

FAN_MM = 7.0
"""How far from a joint two hops of one wire may still lie on each other: they meet there."""

CELL_MM = 9.0


class WirePiece(NamedTuple):
    """A straight piece of a hop: its ends, the number of the hop's wire, and the hop's joints."""

    start: Point
    end: Point
    wire: int
    joints: tuple[Point, Point]


class SharedStretch(NamedTuple):
    """A straight stretch on which two wires lie on each other: where, and which two."""

    start: Point
    end: Point
    wires: tuple[int, int]


class _Straight(NamedTuple):
    """A piece, its length, and which way it runs: how far to the right and down a millimetre."""

    piece: WirePiece
    long: float
    right: float
    down: float


class LaidWires:
    """All pieces that lie already on a plate of some millimetres, by cells of a grid.

    `looked_at` counts what was looked at.
    """

    def __init__(self, extent_mm: float) -> None:
        self.looked_at = 0
        self._grid = Grid(CELL_MM, extent_mm)
        self._in_cell: dict[GridCell, list[_Straight]] = defaultdict(list)

    def lay(self, route: Route, wire: int) -> None:
        """Lay a hop's pieces."""
        for start, end in pairwise(route):
            straight = _straight(WirePiece(start, end, wire, (route[0], route[-1])))
            if straight:
                for cell in self._grid.along(start, end, APART_MM):
                    self._in_cell[cell].append(straight)

    def take_up(self, route: Route, wire: int) -> None:
        """Take up a hop's pieces, which were laid."""
        for start, end in pairwise(route):
            piece = WirePiece(start, end, wire, (route[0], route[-1]))
            for cell in self._grid.along(start, end, APART_MM):
                lie = self._in_cell[cell]
                lie[:] = [one for one in lie if one.piece != piece]

    def shared(self, piece: WirePiece, apart: float = APART_MM) -> Iterator[SharedStretch]:
        """Yield where a further piece would run the same way as one, not so far apart from it.

        Two hops of one wire may do so round the joint that both have.
        """
        straight = _straight(piece)
        if straight is None:
            return
        seen: set[int] = set()
        for cell in self._grid.along(piece.start, piece.end, APART_MM):
            self.looked_at += 1
            for other in self._in_cell.get(cell, ()):
                turn = straight.right * other.down - straight.down * other.right
                if not -SAME_WAY <= turn <= SAME_WAY or id(other) in seen:
                    continue
                seen.add(id(other))
                self.looked_at += 1
                stretch = _on_each_other(straight, other, apart - ROUNDING_MM)
                if stretch and not _is_fan(piece, other.piece, stretch):
                    yield stretch

    def shared_mm(self, piece: WirePiece, apart: float = APART_MM) -> float:
        """Return how much of a further piece would do so: the sum over all that lie already."""
        return sum(dist(one.start, one.end) for one in self.shared(piece, apart))


def _straight(piece: WirePiece) -> _Straight | None:
    """Return a piece with the way that it runs; None if it is too short to run anywhere."""
    run, rise = piece.end[0] - piece.start[0], piece.end[1] - piece.start[1]
    long = hypot(run, rise)
    return _Straight(piece, long, run / long, rise / long) if long > ROUNDING_MM else None


def _on_each_other(one: _Straight, other: _Straight, near: float) -> SharedStretch | None:
    """Return the stretch of one piece along which the other is nearer than that."""
    (x, y), (u, v) = one.piece.start, other.piece.start
    right, down = one.right, one.down
    first = right * (u - x) + down * (v - y)
    beside = right * (v - y) - down * (u - x)
    run = other.long * (right * other.right + down * other.down)
    rise = other.long * (right * other.down - down * other.right)
    low, high = max(0.0, min(first, first + run)), min(one.long, max(first, first + run))
    if rise:
        reach = first + (near - beside) * run / rise, first + (-near - beside) * run / rise
        low, high = max(low, min(reach)), min(high, max(reach))
    elif abs(beside) >= near:
        return None
    if high - low <= ROUNDING_MM:
        return None
    return SharedStretch(
        (x + right * low, y + down * low),
        (x + right * high, y + down * high),
        (other.piece.wire, one.piece.wire),
    )


def _is_fan(one: WirePiece, other: WirePiece, stretch: SharedStretch) -> bool:
    """Whether two hops of a wire lie on each other only round the joint that both have."""
    return one.wire == other.wire and any(
        max(dist(joint, stretch.start), dist(joint, stretch.end)) <= FAN_MM
        for joint in one.joints
        if joint in other.joints
    )
