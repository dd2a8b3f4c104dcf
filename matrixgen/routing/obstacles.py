"""What no wire may cross: switches that it does not visit, posts, stabilisers, screws, areas."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from matrixgen.model import Plate
from matrixgen.model.convex import Convex, convex, disc
from matrixgen.model.geometry import Point
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.switch import POST_MM, UNIT_MM, area_mm, middle_mm
from matrixgen.plate.openings import housings_of
from matrixgen.routing.grid import Grid, GridCell, extent_of
from matrixgen.routing.places import Placed

TOUCH_MM = 0.01
"""A route may touch what it goes round."""

WIDE = 100
"""Cells of the index that a shape may lie in: a wider one is looked at for every piece."""


class Obstacles:
    """All that is in the way on a plate's back, each grown by a clearance in millimetres.

    The bodies of switches are the first of them, numbered in plate order. `others` are the
    corners of what else wires go round. `looked_at` counts the shapes that were looked at.
    """

    def __init__(
        self,
        plate: Plate,
        switches: Sequence[Placed],
        clearance: float,
        others: Sequence[Sequence[Point]] = (),
    ) -> None:
        shapes = [*(convex(one.body) for one in switches), *kept_clear(plate)]
        shapes += map(convex, others)
        posts = [disc(one.middle, POST_MM, 8) for one in switches]
        self._shapes = [one.grown(clearance) for one in shapes]
        self._posts = [one.grown(clearance) for one in posts]
        self._crossed = [one.grown(-TOUCH_MM) for one in self._shapes]
        self._crossed_posts = [one.grown(-TOUCH_MM) for one in self._posts]
        bounds = [one.bounds for one in self._crossed]
        corners = [(left, top) for left, top, _, _ in bounds]
        self._grid = Grid(UNIT_MM, extent_of(corners))
        self.looked_at = 0
        self._wide: set[int] = set()
        self._in_cell: dict[GridCell, list[int]] = defaultdict(list)
        for number, shape in enumerate(self._crossed):
            self._put(number, shape)

    def _put(self, number: int, shape: Convex) -> None:
        """Put a shape into the index, by the cells that its bounds lie in."""
        cells = self._grid.over(*shape.bounds)
        if len(cells) > WIDE:
            self._wide.add(number)
            return
        for cell in cells:
            self._in_cell[cell].append(number)

    def is_free(self, start: Point, end: Point, own: Sequence[int] = ()) -> bool:
        """Whether a straight piece crosses nothing but the bodies that are its own."""
        looked_at = set(own)
        is_free = self._is_past_shapes(start, end, looked_at)
        self.looked_at += len(looked_at)
        return is_free and not any(
            self._crossed_posts[number].is_crossed(start, end) for number in own
        )

    def _is_past_shapes(self, start: Point, end: Point, looked_at: set[int]) -> bool:
        for numbers in (self._wide, *map(self._in_cell_of, self._grid.along(start, end))):
            for number in numbers:
                if number not in looked_at:
                    looked_at.add(number)
                    if self._crossed[number].is_crossed(start, end):
                        return False
        return True

    def _in_cell_of(self, cell: GridCell) -> Sequence[int]:
        return self._in_cell.get(cell, ())

    def near(self, start: Point, end: Point, within: float) -> set[int]:
        """Return the shapes whose bounds are within some millimetres of a straight piece."""
        cells = self._grid.along(start, end, within)
        return self._wide.union(*map(self._in_cell_of, cells))

    def shape_corners(self, number: int) -> tuple[Point, ...]:
        """Return the corners of a shape that is not a post."""
        return self._shapes[number].corners

    def corners(self) -> list[Point]:
        """Return the corners that a route may go over: of all but posts."""
        return [corner for shape in self._shapes for corner in shape.corners]

    def post_corners(self, switch: int) -> tuple[Point, ...]:
        """Return the corners of a switch's post."""
        return self._posts[switch].corners


def kept_clear(plate: Plate) -> list[Convex]:
    """Return what else is on a plate, in millimetres: screws, parts, areas kept clear, stabilisers.

    Of a stabiliser those are its housings. Its own wire lies on the plate; ours go over it. A knob
    that can be pressed is in the way as its switch.
    """
    holes = [disc(middle_mm(one), one.screw.head_mm, 16) for one in plate.holes]
    pressed = knob_keys(plate).values()
    holes += [
        disc(middle_mm(one), one.size.room_mm, 16) for one in plate.components if one not in pressed
    ]
    areas = [convex(area_mm(one)) for one in plate.keep_clear]
    housings = [convex(one.corners) for one in housings_of(plate)]
    return holes + areas + housings
