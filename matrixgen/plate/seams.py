"""Where a plate, or a strip of one, is divided that is too long for a printer.

A seam goes down between the openings from above to below in steps to the right and left, wherever
there is room; its steps keep the parts in place. Seams across are the same on a plate whose x and y
are exchanged (`division.py`).
"""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import pairwise, product
from math import ceil, floor

from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point
from matrixgen.model.rings import RingSide
from matrixgen.plate.openings import Opening
from matrixgen.plate.webs import from_opening, reach_of
from matrixgen.record import Record

STEP_MM = 0.5
"""How far the places are apart that a seam may go through."""

CLEAR_MM = 2.0
"""How far a seam keeps off every opening: between two keys of a unit there are 5.05 mm."""

MOST_PARTS = 20
"""From more parts than these no seams are looked for."""

MORE = 2
"""How many parts more than necessary are tried, where there is no way for a seam."""

STRAIGHT_MM = 4.0
"""From so far off another seam on, a seam that ends there goes straight on: a part that came to lie
between the two would be thin (a choice)."""

TURN_MM = 4.0
"""As much longer a seam may be instead of turning once more (a choice)."""

EDGE_MM = 1.0
"""As much longer a seam may be instead of going on half a millimetre beside the plate's edge, where
it would leave a thin strip (a choice)."""

GridPlace = tuple[int, int]
Step = tuple[int, int]
STEPS: tuple[Step, ...] = ((0, 1), (1, 0), (-1, 0), (0, -1))

State = tuple[GridPlace, Step]
"""A place, and the step that led there."""

Seam = tuple[Point, ...]
"""Places from above the plate to below it."""


class Room(Record, kw_only=True):
    """What is divided: its least x and y and its greatest, and what goes through it.

    `ends` are the seams above and below it, which go across, and at which seams that go down end;
    `sides` are those of the plate.
    """

    bounds: tuple[float, float, float, float]
    openings: tuple[Opening, ...]
    ends: tuple[Seam, ...] = ()
    sides: tuple[RingSide, ...] = ()


class NoLine(Record):
    """Where no seam finds a way: between two x, or None where there would be too many parts."""

    between: tuple[float, float] | None


def seams_of(room: Room, most: float) -> tuple[Seam, ...] | NoLine:
    """Return the seams that divide a room into parts at most so wide, or where one finds no way.

    Parts are about equally wide, and no more than they have to be, or some more.
    """
    fewest = fewest_parts(room.bounds[2] - room.bounds[0], most)
    if fewest > MOST_PARTS:
        return NoLine(None)
    first = seams = _seams(room, most, fewest)
    for count in range(fewest + 1, fewest + MORE + 1):
        if not isinstance(seams, NoLine):
            return seams
        seams = _seams(room, most, count)
    return first if isinstance(seams, NoLine) else seams


def fewest_parts(length: float, most: float) -> int:
    """Return into how many parts a length has to be divided."""
    return ceil(length / most)


def _seams(room: Room, most: float, count: int) -> tuple[Seam, ...] | NoLine:
    """Return the seams that make so many parts: each has the same room to either side."""
    left, _, right, _ = room.bounds
    part = (right - left) / count
    aside = (most - part) / (1 if count == 2 else 2)  # at an end a part has one seam alone
    seams = []
    for number in range(1, count):
        middle = left + part * number
        between = middle - aside, middle + aside
        seam = _Field(room, between).seam()
        if seam is None:
            return NoLine(between)
        seams.append(seam)
    return tuple(seams)


class _Field:
    """The places of a stretch of a room that a seam may go through."""

    def __init__(self, room: Room, across: tuple[float, float]) -> None:
        _, top, _, bottom = room.bounds
        self._left, self._top = across[0], top - STEP_MM
        self._columns = floor((across[1] - across[0]) / STEP_MM) + 1
        self._rows = ceil((bottom - self._top) / STEP_MM) + 2
        self._taken: set[GridPlace] = set()
        self._straight: set[GridPlace] = set()
        for one in room.openings:
            self._taken.update(self._near_opening(one))
        for start, end in (pair for seam in room.ends for pair in pairwise(seam)):
            is_step = abs(end[0] - start[0]) < abs(end[1] - start[1])
            near = self._taken if is_step else self._straight
            near.update(self._near_piece(start, end, STRAIGHT_MM))
        self._at_edge: set[GridPlace] = set()
        for side in room.sides:
            self._at_edge.update(self._near_piece(*side, CLEAR_MM))

    def _near_opening(self, one: Opening) -> Iterator[GridPlace]:
        """Yield the places that are too near to an opening."""
        for cell in self._box(one.middle, one.middle, reach_of(one) + CLEAR_MM):
            if from_opening(self._at(cell), one) < CLEAR_MM:
                yield cell

    def _near_piece(self, start: Point, end: Point, reach: float) -> Iterator[GridPlace]:
        """Yield the places that are so near to a straight piece."""
        for cell in self._box(start, end, reach):
            if distance(self._at(cell), start, end) < reach:
                yield cell

    def _box(self, start: Point, end: Point, reach: float) -> Iterator[GridPlace]:
        """Yield the places in an upright rectangle that goes so far beyond two corners of it."""
        (left, right), (top, bottom) = map(sorted, zip(start, end, strict=True))
        columns = self._range(left - reach - self._left, right + reach - self._left, self._columns)
        rows = self._range(top - reach - self._top, bottom + reach - self._top, self._rows)
        return product(columns, rows)

    def _range(self, low: float, high: float, count: int) -> range:
        return range(max(0, floor(low / STEP_MM)), min(count, ceil(high / STEP_MM) + 1))

    def _at(self, cell: GridPlace) -> Point:
        return self._left + cell[0] * STEP_MM, self._top + cell[1] * STEP_MM

    def seam(self) -> Seam | None:
        """Return the shortest way down with few turns, from as near to the middle as can be."""
        came: dict[State, State | None] = {}
        waiting = [
            (abs(column - self._columns // 2) * STEP_MM / 4, ((column, 0), (0, 1)), None)
            for column in range(self._columns)
        ]
        heap: list[tuple[float, State, State | None]] = sorted(waiting)
        while heap:
            cost, state, before = heappop(heap)
            if state in came:
                continue
            came[state] = before
            cell, step = state
            if cell[1] == self._rows - 1:
                return self._places(state, came)
            for other in STEPS:
                there = cell[0] + other[0], cell[1] + other[1]
                if self._is_free(there) and self._may_turn(cell, step, other):
                    more = STEP_MM + TURN_MM * (other != step) + EDGE_MM * (there in self._at_edge)
                    heappush(heap, (cost + more, (there, other), state))
        return None

    def _may_turn(self, cell: GridPlace, step: Step, other: Step) -> bool:
        """Whether a step may follow another: never back, and only straight on beside a seam."""
        is_back = other == (-step[0], -step[1])
        return other == step or not (is_back or cell in self._straight)

    def _is_free(self, cell: GridPlace) -> bool:
        is_inside = 0 <= cell[0] < self._columns and 0 <= cell[1] < self._rows
        return is_inside and cell not in self._taken

    def _places(self, last: State, came: dict[State, State | None]) -> Seam:
        """Return the places at which a way turns, from its first one to its last."""
        states: list[State] = []
        state: State | None = last
        while state is not None:
            states.append(state)
            state = came[state]
        states.reverse()
        turns = [one for one, following in pairwise(states) if one[1] != following[1]]
        return tuple(self._at(cell) for cell, _ in (states[0], *turns, states[-1]))
