"""Lines in pieces joined to closed outlines: four separate lines make a square."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from math import dist

from matrixgen.drawing.traces import Trace
from matrixgen.model.geometry import Point
from matrixgen.model.tiles import Tiles

GAP_MM = 0.05
"""How far apart two ends may be that are meant as one (our choice)."""


def joined(traces: Iterable[Trace]) -> tuple[list[Trace], list[Trace]]:
    """Return closed outlines, and what stays open; points are in millimetres.

    Ends are joined on one layer only, and only where exactly two meet: where three do, the
    drawing does not say which go together.
    """
    rings: list[Trace] = []
    left: list[Trace] = []
    pieces: dict[str, dict[object, Trace]] = defaultdict(dict)
    for trace in traces:
        if _is_ring(trace.points):
            rings.append(trace)
        else:
            pieces[trace.layer].setdefault(_same(trace.points), trace)
    for layer, kept in pieces.items():
        for points in _chains(list(kept.values())):
            found, is_ring = Trace(tuple(points), layer), _is_ring(points)
            (rings if is_ring else left).append(found)
    return rings, left


def _is_ring(points: Sequence[Point]) -> bool:
    return len(points) > 3 and dist(points[0], points[-1]) <= GAP_MM


def _same(points: Sequence[Point]) -> object:
    """Return what a piece that is drawn a second time, or backwards, has in common with it."""
    rounded = tuple((round(x, 2) + 0.0, round(y, 2) + 0.0) for x, y in points)
    return min(rounded, rounded[::-1])


def _chains(pieces: Sequence[Trace]) -> list[list[Point]]:
    """Return pieces put end to end, as far as their ends are clear."""
    nodes = _Nodes()
    ends = [(nodes.at(piece.points[0]), nodes.at(piece.points[-1])) for piece in pieces]
    at: dict[int, list[int]] = defaultdict(list)
    for number, pair in enumerate(ends):
        for node in pair:
            at[node].append(number)
    used: set[int] = set()
    chains = []
    for number in range(len(pieces)):
        if number not in used:
            used.add(number)
            chain, last = list(pieces[number].points), ends[number][1]
            _go_on(chain, last, pieces, ends, at, used)
            chain.reverse()
            _go_on(chain, ends[number][0], pieces, ends, at, used)
            chains.append(chain)
    return chains


def _go_on(
    chain: list[Point],
    node: int,
    pieces: Sequence[Trace],
    ends: Sequence[tuple[int, int]],
    at: dict[int, list[int]],
    used: set[int],
) -> None:
    """Add the pieces that follow at the end of a chain, as long as one does and no other."""
    while len(at[node]) == 2:
        following = next((number for number in at[node] if number not in used), None)
        if following is None:
            return
        used.add(following)
        points, (first, last) = pieces[following].points, ends[following]
        chain += points[1:] if first == node else points[-2::-1]
        node = last if first == node else first


class _Nodes:
    """Numbers for places: ends that are near each other get one number."""

    def __init__(self) -> None:
        self._tiles = Tiles[tuple[Point, int]](GAP_MM)
        self._number = 0

    def at(self, point: Point) -> int:
        """Return the number of a place."""
        for other, number in self._tiles.near(point):
            if dist(point, other) <= GAP_MM:
                return number
        self._number += 1
        self._tiles.put(point, (point, self._number))
        return self._number
