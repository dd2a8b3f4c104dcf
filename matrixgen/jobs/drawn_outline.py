"""The statement `outline` of a drawing's outline, if there is one that is near enough to it.

Where a margin says it, it is that; and where that is the usual one, nothing has to be said.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

from matrixgen.drawing.corners import DrawnCorners, corners_in
from matrixgen.drawing.decimals import near, written
from matrixgen.model import Plate
from matrixgen.model.convex import distance
from matrixgen.model.geometry import Point
from matrixgen.model.plate import MARGIN_MM, Outline
from matrixgen.model.rings import area_of, in_order, meeting, sides_of
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.outline import flat, outline_of, rounded
from matrixgen.record import changed
from matrixgen.source import LIMITS

FARTHEST_MM = 0.014
"""How far the outline of the file may be from the pieces that a curve of the drawing is read as,
which are up to 0.005 mm off it: less than 0.02 mm in all."""

CORNER_TOLERANCE, RADIUS_TOLERANCE_MM = 0.003 / UNIT_MM, 0.003
"""By how much the numbers that are written are rounded."""


def outline_of_drawing(ring: Sequence[Point], corner: Point, plate: Plate) -> str | None:
    """Return the statement for a closed line in millimetres; `corner` is the plate's, in key units.

    `plate` is what the file has without one. Nothing is said of an outline that it has already,
    and None is returned where no statement comes near enough.
    """
    left, top = (one * UNIT_MM for one in corner)
    wanted = [(x - left, y - top) for x, y in ring]
    if _is_near(flat(outline_of(plate)), wanted):
        return ""
    for found in corners_in(ring):
        margin = _margin(plate, wanted, found.radius)
        if margin and _is_near(flat(outline_of(changed(plate, outline=margin))), wanted):
            said = f"{written(margin.margin)} mm radius {written(margin.radius)} mm"
            return f"  outline margin {said}"
        corners = _in_key_units(found, corner)
        if _can_be_said(corners) and _is_near(_edge_of(corners), wanted):
            places = " to ".join(f"{written(x)}, {written(y)}" for x, y in corners.corners)
            return f"  outline from {places} radius {written(corners.radius)} mm"
    return None


def _margin(plate: Plate, wanted: Sequence[Point], radius: float) -> Outline | None:
    """Return the margin by which a plate is as high as wanted, if there is one."""
    usual = min(y for _, y in flat(outline_of(plate)))
    margin = near(MARGIN_MM + usual - min(y for _, y in wanted), RADIUS_TOLERANCE_MM)
    radius = near(radius, RADIUS_TOLERANCE_MM)
    can_be_said = 0 <= margin <= LIMITS.outline_margin and 0 <= radius <= LIMITS.outline_radius
    return Outline(margin=margin, radius=radius, span=plate.span) if can_be_said else None


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


def _edge_of(said: DrawnCorners) -> list[Point]:
    """Return the outline in millimetres."""
    corners = [(x * UNIT_MM, y * UNIT_MM) for x, y in said.corners]
    return flat(rounded(in_order(corners), said.radius))


def _is_near(made: Sequence[Point], wanted: Sequence[Point]) -> bool:
    """Whether each place of both lines is near to the other one."""
    turned = made if (area_of(made) < 0) == (area_of(wanted) < 0) else made[::-1]
    return _is_beside(wanted, turned) and _is_beside(turned, wanted)


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
