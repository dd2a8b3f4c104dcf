"""The shortest way between two keys over the corners of obstacles: a visibility graph."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, cached_property
from math import dist
from typing import TYPE_CHECKING

import numpy
import shapely

from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing.obstacles import Array, Obstacles

if TYPE_CHECKING:
    import networkx

    Graph = networkx.Graph[Point]

Path = tuple[Point, ...]
Edge = tuple[Point, Point, float]


class End(Record):
    """Where a way begins or ends: a place on a switch, given by its number in plate order."""

    switch: int
    at: Point


class Corners:
    """The corners of obstacles, and which of them see each other.

    Corners that are farther than `farthest` millimetres from each other are taken not to: along a
    channel between switches there are others on the way. Nor do corners that do not see each other
    in `narrower`, the same at a smaller clearance.
    """

    def __init__(
        self, obstacles: Obstacles, farthest: float, narrower: Corners | None = None
    ) -> None:
        self._obstacles = obstacles
        self._farthest = farthest
        self._narrower = narrower
        self._edges_from = cache(self._edges_out_of)

    def shortest(self, start: End, end: End) -> Path | None:
        """Return the shortest way between two switches that crosses no obstacle; None without one.

        Their own bodies may be crossed on the way out and in.
        """
        import networkx  # only here: few plates have anything in a wire's way

        graph = self._graph
        ends = [*self._places_on(start), *self._places_on(end)]
        graph.add_weighted_edges_from((*self._edges_from(start), *self._edges_from(end)))
        graph.add_weighted_edges_from(self._edges_between(start, end))
        try:
            return tuple(networkx.astar_path(graph, start.at, end.at, dist))
        except (networkx.NetworkXNoPath, networkx.NodeNotFound):
            return None
        finally:
            graph.remove_nodes_from(ends)

    @cached_property
    def _corners(self) -> Array:
        return numpy.array(self._obstacles.corners()).reshape(-1, 2)

    @cached_property
    def _graph(self) -> Graph:
        import networkx

        graph: Graph = networkx.Graph()
        graph.add_weighted_edges_from(_edges(self._lines(self._pairs)))
        return graph

    @cached_property
    def _pairs(self) -> Array:
        """The numbers of corners that see each other, in two rows."""
        pairs = self._narrower._pairs if self._narrower else self._near_pairs()
        return pairs[:, self._obstacles.are_free(self._lines(pairs), ())]

    def _near_pairs(self) -> Array:
        places = numpy.asarray(shapely.points(self._corners))
        pairs = shapely.STRtree(places).query(places, "dwithin", distance=self._farthest)
        return pairs[:, pairs[0] < pairs[1]]

    def _lines(self, pairs: Array) -> Array:
        return _lines(self._corners[pairs[0]], self._corners[pairs[1]])

    def _places_on(self, end: End) -> list[Point]:
        """Return where a way may bend on a switch, and begin: at its post's corners, its joint."""
        return [end.at, *self._obstacles.post_corners(end.switch)]

    def _edges_out_of(self, end: End) -> list[Edge]:
        """Return what sees what on a switch, and from it out to corners."""
        own = numpy.array(self._places_on(end))
        apart = numpy.hypot(*(own[:, None] - self._corners[None]).transpose(2, 0, 1))
        one, corner = numpy.nonzero(apart <= self._farthest)
        edges = self._seen(own[one], self._corners[corner], (end.switch,))
        first, second = numpy.triu_indices(len(own), 1)
        return edges + self._seen(own[first], own[second], (end.switch,))

    def _edges_between(self, start: End, end: End) -> list[Edge]:
        ends = numpy.array(self._places_on(start)), numpy.array(self._places_on(end))
        first, second = numpy.indices((len(ends[0]), len(ends[1]))).reshape(2, -1)
        return self._seen(ends[0][first], ends[1][second], (start.switch, end.switch))

    def _seen(self, starts: Array, ends: Array, own: Sequence[int]) -> list[Edge]:
        """Return the pairs of points that see each other, each with its distance."""
        lines = _lines(starts, ends)
        return _edges(lines[self._obstacles.are_free(lines, own)])


def _lines(starts: Array, ends: Array) -> Array:
    return numpy.asarray(shapely.linestrings(numpy.stack([starts, ends], axis=1)))


def _edges(lines: Array) -> list[Edge]:
    ends = shapely.get_coordinates(lines).reshape(-1, 4).tolist()
    lengths = shapely.length(lines).tolist()
    return [((x, y), (u, v), length) for (x, y, u, v), length in zip(ends, lengths, strict=True)]
