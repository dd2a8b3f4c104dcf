"""The cut-outs of the switches, and whether a screw's head or a rectangle reaches into one."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, hypot, radians, sin

from matrixgen.circuit.planned import PITCH_MM
from matrixgen.model import Area, Hole, Key, Plate
from matrixgen.model.geometry import Point, centre_of, turned_about
from matrixgen.record import Record

ROUNDING = 1e-6
"""Key units that are taken for rounding, 0.00002 mm: what touches does not overlap."""


class CutOut(Record):
    """The cut-out in the middle of a key, turned as the key is.

    `half` are half of its sides, in key units, and `reach` is how far it reaches from its middle.
    """

    key: Key
    centre: Point
    half: Point
    reach: float

    def meets(self, hole: Hole) -> bool:
        """Whether a screw's head reaches into it."""
        head = head_of(hole)
        if not self._is_near(hole.x - head, hole.y - head, hole.x + head, hole.y + head):
            return False
        x, y = turned_about((hole.x, hole.y), self.centre, -self.key.turned)
        right = max(abs(x - self.centre[0]) - self.half[0], 0.0)
        down = max(abs(y - self.centre[1]) - self.half[1], 0.0)
        return hypot(right, down) < head - ROUNDING

    def overlaps(self, area: Area) -> bool:
        """Whether no straight line parts it from a rectangle: the separating axis theorem."""
        if not self._is_near(area.x, area.y, area.x + area.width, area.y + area.height):
            return False
        corners, others = self._corners(), _corners_of(area)
        angle = radians(self.key.turned)
        sides = ((1.0, 0.0), (0.0, 1.0), (cos(angle), sin(angle)), (-sin(angle), cos(angle)))
        return all(_shared(side, corners, others) > ROUNDING for side in sides)

    def _is_near(self, left: float, top: float, right: float, bottom: float) -> bool:
        """Whether it can reach into a rectangle: quick, and false for most keys."""
        (x, y), far = self.centre, self.reach
        return left - far < x < right + far and top - far < y < bottom + far

    def _corners(self) -> list[Point]:
        (x, y), (wide, high) = self.centre, self.half
        upright = [(x + right, y + down) for right in (-wide, wide) for down in (-high, high)]
        return [turned_about(corner, self.centre, self.key.turned) for corner in upright]


def head_of(hole: Hole) -> float:
    """Return how far a screw's head reaches from the middle of its hole, in key units."""
    return hole.screw.head_mm / PITCH_MM.value / 2


def cut_outs_of(plate: Plate) -> list[CutOut]:
    """Return the cut-out of each key."""
    half = plate.cut_out[0] / PITCH_MM.value / 2, plate.cut_out[1] / PITCH_MM.value / 2
    return [CutOut(key, centre_of(key), half, hypot(*half)) for key in plate.keys]


def _corners_of(area: Area) -> list[Point]:
    right, bottom = area.x + area.width, area.y + area.height
    return [(x, y) for x in (area.x, right) for y in (area.y, bottom)]


def _shared(side: Point, some: Iterable[Point], others: Iterable[Point]) -> float:
    """Return the length that the shadows of two shapes share along a side of length 1."""
    one, other = ([x * side[0] + y * side[1] for x, y in of] for of in (some, others))
    return min(max(one), max(other)) - max(min(one), min(other))
