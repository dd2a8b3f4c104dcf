"""Which keys cover the same spot of the plate."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from matrixgen.model import Key
from matrixgen.model.convex import Convex, convex, overlap
from matrixgen.model.geometry import corners_of
from matrixgen.routing.grid import Grid, GridCell, extent_of

ROUNDING = 0.02
"""Key units that outlines may share unreported: the figures of a cluster are rounded."""

CELL = 2.0
"""Key units of a cell of the grid by which near keys are found, at least."""


def overlaps(keys: Iterable[Key]) -> Iterator[tuple[Key, Key]]:
    """Yield each key that covers part of an earlier one, with the first such key."""
    shapes = [(key, convex(corners_of(key))) for key in keys]
    grid = Grid(CELL, extent_of([corner for _, shape in shapes for corner in shape.corners]))
    in_cell: dict[GridCell, list[int]] = defaultdict(list)
    for number, (key, shape) in enumerate(shapes):
        cells = grid.over(*shape.bounds)
        near = sorted({earlier for cell in cells for earlier in in_cell[cell]})
        covered = next((shapes[one][0] for one in near if _overlap(shape, shapes[one][1])), None)
        if covered:
            yield key, covered
        for cell in cells:
            in_cell[cell].append(number)


def do_overlap(one: Key, other: Key) -> bool:
    """Whether two keys cover the same spot."""
    return _overlap(*(convex(corners_of(key)) for key in (one, other)))


def _overlap(one: Convex, other: Convex) -> bool:
    return overlap(one, other, ROUNDING)
