"""How much of the plate is left between what goes through it and its edge. Millimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from matrixgen.model.convex import convex, distance
from matrixgen.model.geometry import Bounds, Point, bounds_of
from matrixgen.model.rings import RingSide, is_inside, sides_of
from matrixgen.plate.openings import Circle, Opening
from matrixgen.plate.outline import OutlinePath, arc_of, pairs_of
from matrixgen.plate.webs import from_opening, reach_of
from matrixgen.record import Record


class EdgeStretch(Record):
    """A side of the outline, or an arc as short sides, and the upright rectangle round it."""

    sides: tuple[RingSide, ...]
    bounds: Bounds


class PlateEdge(Record):
    """The plate's edge, clockwise or not: its stretches, and all their ends as one ring."""

    stretches: tuple[EdgeStretch, ...]
    ring: tuple[Point, ...]


def near_edge(
    openings: Sequence[Opening], outline: OutlinePath, least: float
) -> Iterator[tuple[Opening, float]]:
    """Yield each opening with less between it and the edge of the plate.

    It is 0 where the edge runs through it, and below 0 if it lies outside.
    """
    edge = _edge_of(outline)
    for one in openings:
        left = _left(one, edge, least)
        if left < least:
            yield one, left


def _edge_of(outline: OutlinePath) -> PlateEdge:
    stretches, ring = [], []
    for corner, following in pairs_of(outline):
        places = [*arc_of(corner, following), following.at]
        ring += places[:-1]
        sides = tuple(sides_of(places)[:-1])
        stretches.append(EdgeStretch(sides, bounds_of(places)))
    return PlateEdge(tuple(stretches), tuple(ring))


def _left(one: Opening, edge: PlateEdge, least: float) -> float:
    """Return what is left of the plate beside an opening; infinite if it is more than enough."""
    far = reach_of(one) + least
    near = [
        side
        for stretch in edge.stretches
        if _is_near(one.middle, stretch.bounds, far)
        for side in stretch.sides
        if distance(one.middle, *side) < far
    ]
    between = min((_between(one, side) for side in near), default=inf)
    if between <= 0.0:
        return 0.0
    return between if is_inside(one.middle, edge.ring) else -between


def _is_near(at: Point, bounds: Bounds, far: float) -> bool:
    left, top, right, bottom = bounds
    return left - far < at[0] < right + far and top - far < at[1] < bottom + far


def _between(one: Opening, side: RingSide) -> float:
    """Return how far an opening is from a straight piece; 0 or less where they meet."""
    if isinstance(one, Circle):
        return distance(one.middle, *side) - one.diameter / 2
    if convex(one.corners).is_crossed(*side):
        return 0.0
    corners = (distance(corner, *side) for corner in one.corners)
    return min(*(from_opening(end, one) for end in side), *corners)
