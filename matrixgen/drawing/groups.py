"""Switches that belong together: the upright ones, and neighbours of one angle as a cluster."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from matrixgen.drawing.decimals import shortest
from matrixgen.drawing.figures import DrawnSwitch
from matrixgen.model.geometry import Point, bounds_of, turned_about
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

ANGLE_TOLERANCE = 0.05
"""Degrees: a corner of a square moves by 0.009 mm."""

NEIGHBOURS = 2.6
"""Key units between the middles of keys of one cluster: a key of 2 units, and some room."""


class Group(Record):
    """Switches of one angle, in degrees clockwise: their middles in key units, on the plate."""

    turned: float
    middles: tuple[Point, ...]

    def in_its_frame(self) -> list[Point]:
        """Return the middles, turned back about the plate's corner."""
        return [turned_about(middle, (0.0, 0.0), -self.turned) for middle in self.middles]


def groups_of(switches: Sequence[DrawnSwitch]) -> tuple[Group, list[Group]]:
    """Return the upright switches, which may be none, and clusters in reading order."""
    upright: list[Point] = []
    clusters: list[Group] = []
    for same in _by_angle(switches):
        angle = shortest(
            max(one.turned for one in same) - ANGLE_TOLERANCE,
            min(one.turned for one in same) + ANGLE_TOLERANCE,
        )
        middles = [(one.x / UNIT_MM, one.y / UNIT_MM) for one in same]
        if angle:
            clusters += [Group(angle, tuple(near)) for near in _neighbours(middles)]
        else:
            upright += middles
    clusters.sort(key=_reading_order)
    return Group(0.0, tuple(upright)), clusters


def _by_angle(switches: Sequence[DrawnSwitch]) -> list[list[DrawnSwitch]]:
    found: list[list[DrawnSwitch]] = []
    for one in sorted(switches, key=lambda one: (one.turned, one.y, one.x)):
        if not found or one.turned - found[-1][0].turned > 1.8 * ANGLE_TOLERANCE:
            found.append([])
        found[-1].append(one)
    return found


def _neighbours(middles: Sequence[Point]) -> list[list[Point]]:
    """Return groups in which each middle has a neighbour of the same group."""
    left, found = list(middles), []
    while left:
        group = [left.pop(0)]
        for one in group:
            is_near = [dist(one, other) <= NEIGHBOURS for other in left]
            group += [other for other, near in zip(left, is_near, strict=True) if near]
            left = [other for other, near in zip(left, is_near, strict=True) if not near]
        found.append(group)
    return found


def _reading_order(group: Group) -> tuple[int, float, float]:
    """Return what sorts clusters as a page is read: bands of two key units, then from the left."""
    left, top, _, _ = bounds_of(group.middles)
    return round(top / 2), left, top
