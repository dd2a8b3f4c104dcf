"""What a drawing is once its format is forgotten: runs of points, and marks that are not lines."""

from __future__ import annotations

from math import isfinite

from matrixgen.model.geometry import Point
from matrixgen.reading import Refused
from matrixgen.record import Record

MOST_SHAPES = 50_000
"""Of a drawing that is read; a plate of 1,024 keys in four lines each has a tenth of that."""

MOST_POINTS = 1_000_000

FARTHEST = 1e7
"""In the drawing's own unit. A double keeps 9 decimals of it: what is farther is damage."""


class Trace(Record):
    """Points joined by straight lines, in the drawing's unit; closed if the ends meet."""

    points: tuple[Point, ...]
    layer: str


class Mark(Record):
    """What is not made of lines, such as a text: its kind in words, and where it is."""

    kind: str
    at: Point
    layer: str


class DrawnUnit(Record):
    """A unit that a drawing may be in: its name in the plural, and one of it in millimetres."""

    name: str
    mm: float


class Drawing(Record, kw_only=True):
    """Everything that a drawing shows.

    `units` are those it may be in, the most likely first; with `is_stated` the first is its own.
    If `grows_up`, y is larger further up. `hidden` counts what is on layers that are not shown.
    """

    traces: tuple[Trace, ...]
    marks: tuple[Mark, ...]
    units: tuple[DrawnUnit, ...]
    is_stated: bool
    grows_up: bool
    hidden: int


class Collected:
    """What was read of a drawing so far; raises `Refused` where that is more than is kept."""

    def __init__(self) -> None:
        self.traces: list[Trace] = []
        self.marks: list[Mark] = []
        self.hidden = 0
        self._points = self._shapes = 0

    def count_shape(self) -> None:
        """Count a shape, or a block that holds some; also one that leaves nothing."""
        self._shapes += 1
        if self._shapes > MOST_SHAPES:
            help = "save only the layer of the switches, and try again"
            raise Refused(f"it has more than {MOST_SHAPES:,} shapes", help)

    def count_points(self, number: int) -> None:
        """Count points, or text that may have held some."""
        self._points += number
        if self._points > MOST_POINTS:
            raise Refused(f"its shapes have more than {MOST_POINTS:,} points")

    def add_trace(self, points: list[Point], layer: str) -> None:
        """Keep a run of points; a bad one becomes a mark."""
        self.count_points(len(points))
        if not all(map(_is_near, points)):
            self.add_mark("shape that is too far away", (0.0, 0.0), layer)
        elif len(set(points)) > 1:
            self.traces.append(Trace(tuple(points), layer))

    def add_mark(self, kind: str, at: Point, layer: str) -> None:
        """Keep what is not made of lines."""
        self.marks.append(Mark(kind, at if _is_near(at) else (0.0, 0.0), layer))

    def drawing(self, units: tuple[DrawnUnit, ...], *, stated: bool, grows_up: bool) -> Drawing:
        """Return the drawing of all that was kept."""
        return Drawing(
            traces=tuple(self.traces),
            marks=tuple(self.marks),
            units=units,
            is_stated=stated,
            grows_up=grows_up,
            hidden=self.hidden,
        )


def _is_near(point: Point) -> bool:
    return all(isfinite(one) and abs(one) <= FARTHEST for one in point)
