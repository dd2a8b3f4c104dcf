"""Where there is no room to lay wires beside each other: bundles, and which wires are in them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from matrixgen.model.convex import distance
from matrixgen.model.tiles import Tiles
from matrixgen.routing.grid import extent_of
from matrixgen.routing.laid import LaidWires, SharedStretch, WirePiece
from matrixgen.routing.places import Bundle, Route

TOGETHER_MM = 1.5
"""How far from each other two stretches of one bundle are, at most (a choice)."""

CELL_MM = 20.0

MANY = 2000
"""From so many stretches on, those of a wire in a cell are one bundle: comparing all takes long."""


def bundles_of(hops: Iterable[tuple[int, Route]]) -> tuple[Bundle, ...]:
    """Return the bundles of all hops, each with the number of its wire: where two share a line."""
    hops = list(hops)
    laid = LaidWires(extent_of([at for _, route in hops for at in route]))
    found: list[SharedStretch] = []
    for wire, route in hops:
        for start, end in pairwise(route):
            found += laid.shared(WirePiece(start, end, wire, (route[0], route[-1])))
        laid.lay(route, wire)
    return tuple(map(_bundle, _grouped(found)))


def _bundle(stretches: Sequence[SharedStretch]) -> Bundle:
    return Bundle(
        tuple(sorted({(one.start, one.end) for one in stretches})),
        tuple(sorted({wire for one in stretches for wire in one.wires})),
    )


def _grouped(stretches: Sequence[SharedStretch]) -> list[list[SharedStretch]]:
    """Return the stretches by bundles: those that have a wire in common and hang together."""
    group_of = list(range(len(stretches)))

    def group(number: int) -> int:
        while group_of[number] != number:
            group_of[number] = number = group_of[group_of[number]]
        return number

    for one, other in _neighbours(stretches):
        first, last = sorted((group(one), group(other)))
        is_many = len(stretches) > MANY
        if first != last and (is_many or _hang_together(stretches[one], stretches[other])):
            group_of[last] = first
    found: dict[int, list[SharedStretch]] = defaultdict(list)
    for number, stretch in enumerate(stretches):
        found[group(number)].append(stretch)
    return list(found.values())


def _neighbours(stretches: Sequence[SharedStretch]) -> Iterator[tuple[int, int]]:
    """Yield each two stretches that end in the same or neighbouring cells of a grid."""
    if len(stretches) > MANY:
        yield from _in_same_cell(stretches)
        return
    tiles = Tiles[int](CELL_MM)
    for number, stretch in enumerate(stretches):
        seen: set[int] = set()
        for at in (stretch.start, stretch.end):
            seen.update(tiles.near(at))
            tiles.put(at, number)
        yield from ((other, number) for other in sorted(seen) if other != number)


def _in_same_cell(stretches: Sequence[SharedStretch]) -> Iterator[tuple[int, int]]:
    """Yield each stretch of a wire with the first one of the wire that begins in the same cell."""
    tiles, first = Tiles[int](CELL_MM), dict[tuple[tuple[int, int], int], int]()
    for number, stretch in enumerate(stretches):
        for wire in stretch.wires:
            other = first.setdefault((tiles.of(stretch.start), wire), number)
            if other != number:
                yield other, number


def _hang_together(one: SharedStretch, other: SharedStretch) -> bool:
    if not set(one.wires) & set(other.wires):
        return False
    ends = [(at, other) for at in (one.start, one.end)]
    ends += [(at, one) for at in (other.start, other.end)]
    return any(distance(at, by.start, by.end) <= TOGETHER_MM for at, by in ends)
