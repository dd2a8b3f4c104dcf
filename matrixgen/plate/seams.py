"""Where a plate is divided that is too long for a printer: along lines between its openings.

A seam goes down the plate from above to below in steps to the right and left, wherever there is
room between what goes through; its steps keep the parts in place.
"""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import pairwise
from math import ceil, floor

from matrixgen.model.geometry import Point
from matrixgen.plate.openings import Circle, Opening
from matrixgen.plate.shape import PlateShape
from matrixgen.plate.webs import from_opening

STEP_MM = 0.5
"""How far the places are apart that a seam may go through."""

CLEAR_MM = 2.0
"""How far a seam keeps off every opening: between two keys of a unit there are 5.05 mm."""

MOST_PARTS = 20
"""From more parts than these no seams are looked for."""

MORE = 2
"""How many parts more than necessary are tried, where there is no way for a seam."""

TURN_MM = 4.0
"""As much longer a seam may be instead of turning once more (a choice)."""

GridPlace = tuple[int, int]
Step = tuple[int, int]
STEPS: tuple[Step, ...] = ((0, 1), (1, 0), (-1, 0), (0, -1))

State = tuple[GridPlace, Step]
"""A place, and the step that led there."""

Seam = tuple[Point, ...]
"""Places from above the plate to below it."""


def seams_of(shape: PlateShape, most: float) -> list[Seam] | None:
    """Return the seams that divide a plate into parts at most so wide, or None if one finds no way.

    Parts are about equally wide, and no more than they have to be, or some more.
    """
    left, _, right, _ = shape.bounds
    fewest = ceil((right - left) / most)
    if fewest > MOST_PARTS:
        return None
    tries = (_seams(shape, most, count) for count in range(fewest, fewest + MORE + 1))
    return next((seams for seams in tries if seams is not None), None)


def _seams(shape: PlateShape, most: float, count: int) -> list[Seam] | None:
    """Return the seams that make so many parts: each has the same room to either side."""
    left, top, right, bottom = shape.bounds
    part = (right - left) / count
    aside = (most - part) / (1 if count == 2 else 2)  # at an end a part has one seam alone
    seams = []
    for number in range(1, count):
        middle = left + part * number
        field = _Field(shape.openings, (middle - aside, middle + aside), (top, bottom))
        seam = field.seam()
        if seam is None:
            return None
        seams.append(seam)
    return seams


class _Field:
    """The places of a stretch of the plate that a seam may go through."""

    def __init__(
        self, openings: tuple[Opening, ...], across: tuple[float, float], down: tuple[float, float]
    ) -> None:
        self._left, self._top = across[0], down[0] - STEP_MM
        self._columns = floor((across[1] - across[0]) / STEP_MM) + 1
        self._rows = ceil((down[1] - self._top) / STEP_MM) + 2
        self._taken: set[GridPlace] = set()
        for one in openings:
            self._taken.update(self._near(one))

    def _near(self, one: Opening) -> Iterator[GridPlace]:
        """Yield the places that are too near to an opening."""
        reach = (one.diameter if isinstance(one, Circle) else max(one.width, one.height)) + CLEAR_MM
        x, y = one.middle
        for column in self._range(x - reach - self._left, x + reach - self._left, self._columns):
            for row in self._range(y - reach - self._top, y + reach - self._top, self._rows):
                at = self._at((column, row))
                if from_opening(at, one) < CLEAR_MM:
                    yield column, row

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
                if self._is_free(there) and (other[0] != -step[0] or other[1] != -step[1]):
                    more = STEP_MM + TURN_MM * (other != step)
                    heappush(heap, (cost + more, (there, other), state))
        return None

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
