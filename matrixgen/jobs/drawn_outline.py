"""The statement `outline` of a drawing's outline, if there is one that is near enough to it.

A plain rectangle gets none: a margin says what a maker wants of it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

from matrixgen.drawing.corners import DrawnCorners, corners_in, is_upright_rectangle
from matrixgen.drawing.decimals import near, written
from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point
from matrixgen.model.rings import area_of, in_order, meeting, sides_of
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.outline import flat, rounded
from matrixgen.source import LIMITS

FARTHEST_MM = 0.014
"""How far the outline of the file may be from the pieces that a curve of the drawing is read as,
which are up to 0.005 mm off it: less than 0.02 mm in all."""

CORNER_TOLERANCE, RADIUS_TOLERANCE_MM = 0.003 / UNIT_MM, 0.003
"""By how much the numbers that are written are rounded."""


def outline_statement(ring: Sequence[Point], corner: Point) -> str | None:
    """Return the statement for a closed line in millimetres; `corner` is the plate's, in key units.

    None for an upright rectangle, and where none comes near enough.
    """
    for found in corners_in(ring):
        said = _in_key_units(found, corner)
        if _can_be_said(said) and _is_near(said, ring, corner):
            if is_upright_rectangle(found.corners):
                return None
            places = " to ".join(f"{written(x)}, {written(y)}" for x, y in said.corners)
            return f"  outline from {places} radius {written(said.radius)} mm"
    return None


def _in_key_units(found: DrawnCorners, corner: Point) -> DrawnCorners:
    """Return what is written: corners from that of the plate, with few decimals."""
    left, top = corner
    placed = ((x / UNIT_MM - left, y / UNIT_MM - top) for x, y in found.corners)
    corners = tuple((near(x, CORNER_TOLERANCE), near(y, CORNER_TOLERANCE)) for x, y in placed)
    return DrawnCorners(corners, near(found.radius, RADIUS_TOLERANCE_MM))


def _can_be_said(said: DrawnCorners) -> bool:
    """Whether the language has such an outline."""
    reach = max(abs(one) for at in said.corners for one in at)
    is_small = len(said.corners) <= LIMITS.outline_corners and reach <= LIMITS.plate_reach
    if not is_small or not 0 <= said.radius <= LIMITS.outline_radius:
        return False
    return meeting(said.corners, LIMITS.least_side) is None


def _is_near(said: DrawnCorners, ring: Sequence[Point], corner: Point) -> bool:
    """Whether each place of both lines is near to the other one."""
    left, top = corner
    moved = [((x + left) * UNIT_MM, (y + top) * UNIT_MM) for x, y in said.corners]
    made = flat(rounded(in_order(moved), said.radius))
    if area_of(ring) < 0:
        made.reverse()
    return _is_beside(ring, made) and _is_beside(made, ring)


def _is_beside(some: Sequence[Point], others: Sequence[Point]) -> bool:
    """Whether each place of a line is near to another line, which mostly goes the same way."""
    sides = deque(sides_of(others))
    for at in some:
        near = (n for n, side in enumerate(sides) if distance(at, *side) <= FARTHEST_MM)
        found = next(near, None)
        if found is None:
            return False
        sides.rotate(-found)
    return True
