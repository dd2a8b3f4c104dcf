"""Where the name of a key is written on the back of its switch: where no wire lies."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations, pairwise, product
from math import ceil, floor, hypot

from matrixgen.emit.sheet.font import ASCENT, DESCENT, width_of
from matrixgen.emit.sheet.space import Rectangle, Space, ThickLine
from matrixgen.model.convex import Convex
from matrixgen.model.geometry import Point
from matrixgen.record import Record

SIZES = (2.7, 2.4, 2.1, 1.8, 1.6, 1.4, 1.2, 1.0, 0.8, 0.6)
"""Heights of letters in millimetres: the largest that there is room for is taken."""

MOST_LINES = 3
STEP_MM, INSIDE_MM, BESIDE_MM = 0.5, 0.2, 0.15
"""How large the cells are that are free or taken, and how far a name keeps off its switch's edge
and off anything else."""

CROWD = 200
"""From so many wires, legs and names round a switch on, no room is looked for on it."""

WITHIN_A_WORD = 0.55
"""How legible a name is that is cut within one of its words, beside one as large that is not."""

ROUNDING_MM = 0.001

BELOW_MM = 3.6
"""Where a name's middle is best, below the middle of its switch: between its post and its edge."""


class Written(Record):
    """A name as it is written: its lines, their size, the middle of the first one's foot."""

    lines: tuple[str, ...]
    size: float
    at: Point

    @property
    def box(self) -> Rectangle:
        """The rectangle that it is in."""
        half = max(width_of(line, self.size) for line in self.lines) / 2
        top = self.at[1] - ASCENT * self.size
        below = ((len(self.lines) - 1) * (ASCENT + DESCENT) + DESCENT) * self.size
        return Rectangle(self.at[0] - half, top, self.at[0] + half, self.at[1] + below)


def written(name: str, body: Convex, middle: Point, space: Space) -> Written:
    """Return where a key's name is written on its switch's body so that it touches nothing.

    The last resort is very small, in the middle.
    """
    ways, inside = _ways(name), body.grown(-INSIDE_MM)
    near = space.within(Rectangle(*inside.bounds))
    if len(near) > CROWD:
        return Written(ways[-1][2], SIZES[-1], middle)
    free, best = _Free(inside, near), (middle[0], middle[1] + BELOW_MM)
    for _, size, lines in ways:
        half = max(width_of(line, size) for line in lines) / 2
        height = len(lines) * (ASCENT + DESCENT) * size
        if at := free.nearest(best, 2 * (half + BESIDE_MM), height + 2 * BESIDE_MM):
            return Written(lines, size, (at[0], at[1] - height / 2 + ASCENT * size))
    return Written(ways[-1][2], SIZES[-1], middle)


class _Free:
    """The cells of a shape in which nothing is, and how many are taken above and left of each."""

    def __init__(self, inside: Convex, near: Iterable[ThickLine]) -> None:
        left, top, right, bottom = inside.bounds
        self._left, self._top = left, top
        columns, rows = int((right - left) / STEP_MM), int((bottom - top) / STEP_MM)
        taken = self._outside(inside, columns, rows)
        for shape in near:
            self._take(shape, taken, columns, rows)
        self._sums = [[0] * (columns + 1)]
        for row in range(rows):
            above, so_far, sums = self._sums[-1], 0, [0]
            for column in range(columns):
                so_far += (column, row) in taken
                sums.append(above[column + 1] + so_far)
            self._sums.append(sums)

    def _outside(self, inside: Convex, columns: int, rows: int) -> set[tuple[int, int]]:
        """Return the cells that are not wholly inside."""
        sides = [(u, v, out - (abs(u) + abs(v)) * STEP_MM / 2) for u, v, out in inside.sides]
        found = set()
        for column, row in product(range(columns), range(rows)):
            x, y = self._left + (column + 0.5) * STEP_MM, self._top + (row + 0.5) * STEP_MM
            if any(x * u + y * v > out + ROUNDING_MM for u, v, out in sides):
                found.add((column, row))
        return found

    def _take(self, shape: ThickLine, taken: set[tuple[int, int]], columns: int, rows: int) -> None:
        """Take the cells that a thick line touches: row by row, those beside its piece there."""
        (x, y), (u, v), half = shape
        reach = half + STEP_MM / 2
        for row in _touched(min(y, v), max(y, v), reach, self._top, rows):
            middle = self._top + (row + 0.5) * STEP_MM
            ends = _between((x, y), (u, v), middle - reach, middle + reach)
            if ends:
                across = _touched(*ends, reach, self._left, columns)
                taken.update((column, row) for column in across)

    def nearest(self, best: Point, width: float, height: float) -> Point | None:
        """Return the middle of the free rectangle of a size that is next to a place."""
        wide, high = ceil(width / STEP_MM), ceil(height / STEP_MM)
        found, least = None, float("inf")
        for row in range(len(self._sums) - high):
            above, below = self._sums[row], self._sums[row + high]
            y = self._top + (row + high / 2) * STEP_MM
            for column in range(len(above) - wide):
                last = column + wide
                if below[last] - above[last] == below[column] - above[column]:
                    x = self._left + (column + wide / 2) * STEP_MM
                    far = hypot(x - best[0], y - best[1])
                    if far < least:
                        found, least = (x, y), far
        return found


def _touched(low: float, high: float, reach: float, start: float, count: int) -> range:
    """Return which of so many steps have a middle within reach of what lies between two places."""
    first = ceil((low - reach - start) / STEP_MM - 0.5)
    last = floor((high + reach - start) / STEP_MM - 0.5)
    return range(max(0, first), min(count, last + 1))


def _between(start: Point, end: Point, top: float, bottom: float) -> tuple[float, float] | None:
    """Return from where to where a line goes within a band across the page; None if it does not."""
    (x, y), (u, v) = start, end
    if y == v:
        return (min(x, u), max(x, u)) if top <= y <= bottom else None
    low, high = sorted(((top - y) / (v - y), (bottom - y) / (v - y)))
    first, last = max(0.0, low), min(1.0, high)
    if first > last:
        return None
    one, other = x + (u - x) * first, x + (u - x) * last
    return min(one, other), max(one, other)


def _ways(name: str) -> list[tuple[float, float, tuple[str, ...]]]:
    """Return the ways to write a name, the most legible first: how legible, its size, its lines."""
    inner = range(1, len(name))
    words = [n for n in inner if name[n - 1].islower() and not name[n].islower()]
    words += [n for n in inner if name[n - 1] in "._-" and n not in words]
    ways: dict[tuple[str, ...], float] = {}
    for legible, places in ((1.0, sorted(words)), (WITHIN_A_WORD, list(range(2, len(name) - 1)))):
        for count in range(min(MOST_LINES, len(places) + 1)):
            ways.setdefault(_narrowest(name, places, count), legible if count else 1.0)
    found = [(part * size, size, lines) for lines, part in ways.items() for size in SIZES]
    return sorted(found, key=lambda way: (-way[0], len(way[2])))


def _narrowest(name: str, places: list[int], cuts: int) -> tuple[str, ...]:
    """Return a name cut so many times at some of these places, as narrow as can be."""
    options = (
        tuple(name[one:other] for one, other in pairwise((0, *chosen, len(name))))
        for chosen in combinations(places, cuts)
    )
    return min(options, key=lambda lines: max(width_of(line, 1) for line in lines))
