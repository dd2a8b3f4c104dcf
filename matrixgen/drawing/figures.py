"""The switches and screw holes of a drawing, its outline, and what was not understood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from matrixgen.drawing.joining import joined
from matrixgen.drawing.outlines import FULLNESS, ClosedShape, measured
from matrixgen.drawing.traces import Drawing, DrawnUnit, Trace
from matrixgen.model.component import SIZES
from matrixgen.model.geometry import Point, bounds_of
from matrixgen.model.plate import CUT_OUT_MM, HOUSING_MM
from matrixgen.model.tiles import Tiles
from matrixgen.record import Record

SIDE_MM, _ = CUT_OUT_MM

SIDE_TOLERANCE_MM = 0.3
"""How far a side of a switch's square may be from 14 mm: a laser's kerf (our choice)."""

HOLE_MM = (2.0, 4.0)
"""Diameters of screw holes: M2 to M3 and their clearance (our choice)."""

LED_MM = SIZES["light"].hole_mm
LED_TOLERANCE_MM = 0.05
"""How far the hole of an LED may be from its size. A screw M3 has a hole of 3.2 mm in a close fit
(ISO 273), so its size alone does not say which of the two a hole is for."""

ROUNDING_MM = 1e-3
CURVE_MM = 0.01
"""How far a circle's diameter may be off for being read as points."""

ONE_SWITCH_MM = 7.0
"""Squares whose middles are nearer than that are one switch, drawn twice."""


class Leftover(Record):
    """What was not understood: what it is, and its place in millimetres, as the drawing has it."""

    what: str
    at: Point
    layer: str


class DrawnSwitch(Record):
    """A switch: its middle in millimetres, y downwards, and degrees clockwise, up to 45."""

    x: float
    y: float
    turned: float


class DrawnHole(Record):
    """A round hole: its middle and its diameter in millimetres, and whether another is on it."""

    at: Point
    diameter: float
    is_sunk: bool = False

    @property
    def may_be_led(self) -> bool:
        """Whether it may be for an LED as well as for a screw."""
        return not self.is_sunk and abs(self.diameter - LED_MM) <= LED_TOLERANCE_MM + ROUNDING_MM


class DrawnHousing(Record):
    """A cut-out of the size of a stabiliser's, and how it is listed if it is of none."""

    at: Point
    leftover: Leftover


class DrawnOutline(Record):
    """The outline round everything, in millimetres, and how it is listed if it is left out."""

    ring: tuple[Point, ...]
    leftover: Leftover


class Figures(Record, kw_only=True):
    """What was found in a drawing, y downwards; `unit` is the one in which it was read."""

    unit: DrawnUnit
    switches: tuple[DrawnSwitch, ...]
    holes: tuple[DrawnHole, ...]
    housings: tuple[DrawnHousing, ...]
    around: DrawnOutline | None
    leftovers: tuple[Leftover, ...]


def figures_in(drawing: Drawing, *, is_mirrored: bool = False) -> Figures:
    """Return what is in a drawing, in the first of its units in which it has a switch.

    With `is_mirrored` it shows the plate from behind, and is turned round.
    """
    found = [_Finder(drawing, unit, is_mirrored) for unit in drawing.units[:1]]
    if not found[0].switches:
        found += [_Finder(drawing, unit, is_mirrored) for unit in drawing.units[1:]]
    return next((one for one in found if one.switches), found[0]).figures()


class _Finder:
    """Looks through a drawing in one unit. Lengths are in millimetres, y downwards."""

    def __init__(self, drawing: Drawing, unit: DrawnUnit, is_mirrored: bool) -> None:
        self._drawing, self._unit = drawing, unit
        self._sign_x = -1.0 if is_mirrored else 1.0
        self._sign_y = -1.0 if drawing.grows_up else 1.0
        moved = [Trace(self._moved(one.points), one.layer) for one in drawing.traces]
        rings, self._pieces = joined(moved)
        shapes = [measured(ring) for ring in rings]
        self._ring_of = {id(shape): ring.points for shape, ring in zip(shapes, rings, strict=True)}
        self._outlines = list({_rounded(one): one for one in reversed(shapes)}.values())[::-1]
        squares = [one for one in self._outlines if _is_switch(one)]
        self.switches, self._doubled = _apart(squares)

    def _moved(self, points: Sequence[Point]) -> tuple[Point, ...]:
        x_mm, y_mm = self._unit.mm * self._sign_x, self._unit.mm * self._sign_y
        return tuple((x * x_mm, y * y_mm) for x, y in points)

    def figures(self) -> Figures:
        """Return all that was found."""
        holes: dict[Point, DrawnHole] = {}  # by their places, roughly: a sunk one has two circles
        others = list(self._doubled)
        inside = Tiles[ClosedShape](ONE_SWITCH_MM)
        for one in self.switches:
            inside.put((one.x, one.y), one)
        for one in self._outlines:
            if _is_hole(one) and not _is_one_of(inside, (one.x, one.y)):
                place, width = (round(one.x, 1), round(one.y, 1)), 2 * one.radius
                known = holes.get(place)
                if known:
                    width = min(width, known.diameter)
                holes[place] = DrawnHole((one.x, one.y), width, known is not None)
            elif not _is_switch(one):
                others.append(one)
        others.sort(key=lambda one: (round(one.y, 2), one.x, one.width))
        around = self._around(others)
        housings = [one for one in others if _is_housing(one)]
        unknown = (one for one in others if one is not around and not _is_housing(one))
        leftovers = [self._of_outline(one, self._what(one)) for one in unknown]
        leftovers += map(self._of_piece, sorted(self._pieces, key=_place_of_piece))
        leftovers += self._of_marks()
        return Figures(
            unit=self._unit,
            switches=tuple(DrawnSwitch(one.x, one.y, one.turned) for one in self.switches),
            holes=tuple(sorted(holes.values(), key=lambda one: (round(one.at[1], 2), one.at[0]))),
            housings=tuple(map(self._housing, housings)),
            around=self._outline(around) if around else None,
            leftovers=tuple(leftovers),
        )

    def _housing(self, one: ClosedShape) -> DrawnHousing:
        return DrawnHousing((one.x, one.y), self._of_outline(one, self._what(one)))

    def _outline(self, around: ClosedShape) -> DrawnOutline:
        leftover = self._of_outline(around, "outline round everything")
        return DrawnOutline(self._ring_of[id(around)], leftover)

    def _around(self, others: Sequence[ClosedShape]) -> ClosedShape | None:
        """Return the largest closed outline that has every switch inside."""
        if not self.switches:
            return None
        left, top, right, bottom = bounds_of((one.x, one.y) for one in self.switches)
        holding = [
            one
            for one in others
            if not _is_switch(one)
            and one.box[0] < left
            and one.box[1] < top
            and one.box[2] > right
            and one.box[3] > bottom
        ]
        return max(holding, key=lambda one: one.width * one.height, default=None)

    def _what(self, one: ClosedShape) -> str:
        if _is_switch(one):
            return "second square on a switch"
        if not one.radius:
            return "closed outline"
        return "hole in a switch" if _is_hole(one) else "circle"

    def _of_outline(self, one: ClosedShape, what: str) -> Leftover:
        size = f"{one.width:.2f} × {one.height:.2f} mm"
        if one.radius:
            size = f"{2 * one.radius:.2f} mm across"
        return Leftover(f"{what}, {size}", self._at((one.x, one.y)), one.layer)

    def _of_piece(self, piece: Trace) -> Leftover:
        start, end = piece.points[0], piece.points[-1]
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        what = f"open line, {dist(start, end):.2f} mm end to end"
        return Leftover(what, self._at(middle), piece.layer)

    def _of_marks(self) -> Iterator[Leftover]:
        for mark in self._drawing.marks:
            at = (mark.at[0] * self._unit.mm, mark.at[1] * self._unit.mm)
            yield Leftover(mark.kind, at, mark.layer)

    def _at(self, point: Point) -> Point:
        """Return a place as the drawing has it, apart from its unit."""
        return point[0] * self._sign_x + 0.0, point[1] * self._sign_y + 0.0


def _place_of_piece(piece: Trace) -> Point:
    return round(piece.points[0][1], 2), piece.points[0][0]


def _rounded(one: ClosedShape) -> tuple[float, ...]:
    """Return what an outline has in common with one that is drawn over it."""
    sizes = (one.x, one.y, one.width, one.height, one.radius)
    return (*(round(size, 2) + 0.0 for size in sizes), round(one.fullness, 1), round(one.turned))


def _is_switch(one: ClosedShape) -> bool:
    most = SIDE_TOLERANCE_MM + ROUNDING_MM
    sides = abs(one.width - SIDE_MM) <= most and abs(one.height - SIDE_MM) <= most
    return sides and one.fullness >= FULLNESS


def _is_housing(one: ClosedShape) -> bool:
    """Whether it has the size of a cut-out for a stabiliser, whichever way it is turned."""
    sides = zip(sorted((one.width, one.height)), sorted(HOUSING_MM), strict=True)
    most = SIDE_TOLERANCE_MM + ROUNDING_MM
    return all(abs(side - wanted) <= most for side, wanted in sides) and one.fullness >= FULLNESS


def _is_hole(one: ClosedShape) -> bool:
    least, most = HOLE_MM
    return least - CURVE_MM <= 2 * one.radius <= most + CURVE_MM


def _apart(squares: Sequence[ClosedShape]) -> tuple[list[ClosedShape], list[ClosedShape]]:
    """Return squares that are switches of their own, and those that lie on another one.

    The one that is nearest to 14 mm wide is the switch.
    """
    kept: list[ClosedShape] = []
    doubled = []
    near = Tiles[ClosedShape](ONE_SWITCH_MM)
    for one in sorted(squares, key=lambda one: (round(abs(one.width - SIDE_MM), 3), one.y, one.x)):
        if _is_one_of(near, (one.x, one.y)):
            doubled.append(one)
        else:
            kept.append(one)
            near.put((one.x, one.y), one)
    return sorted(kept, key=lambda one: (one.y, one.x)), doubled


def _is_one_of(tiles: Tiles[ClosedShape], at: Point) -> bool:
    """Whether the middle of a switch is near."""
    return any(dist((one.x, one.y), at) < ONE_SWITCH_MM for one in tiles.near(at))
