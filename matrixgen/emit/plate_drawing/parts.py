"""A solid plate in parts that a printer has room for, which lie over each other where they meet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from matrixgen.plate.division import Division
from matrixgen.plate.seams import Seam

if TYPE_CHECKING:
    from manifold3d import CrossSection, Manifold

LAP_MM, GAP_MM = 1.0, 0.1
"""How far the front of the left or upper part reaches over the back of the other, and how much room
is left on each side (a sliding fit of printed parts is 0.2 to 0.3 mm in all: printers' guides)."""

APART_MM = 10.0
"""How far the parts are from each other in the file."""

FAR_MM, BEYOND_MM = 1000.0, 10.0
"""How far one side of a seam reaches, and how far it goes on at its ends."""


def parts_of(solid: Manifold, division: Division, thickness: float) -> list[Manifold]:
    """Return the parts of a plate, strip by strip and from left to right, moved apart."""
    strips = _cut(solid, map(_above, division.across), thickness)
    parts: list[Manifold] = []
    foot = 0.0
    for strip, seams in zip(strips, division.down, strict=True):
        row = _side_by_side(_cut(strip, map(_left_of, seams), thickness))
        boxes = [part.bounding_box() for part in row]
        down = foot - APART_MM - max(box[4] for box in boxes) if parts else 0.0
        parts += [part.translate((0, down, 0)) for part in row]
        foot = min(box[1] for box in boxes) + down
    return parts


def _side_by_side(row: Sequence[Manifold]) -> list[Manifold]:
    """Return the parts of a strip, moved to the right so that each has room."""
    placed: list[Manifold] = []
    end = 0.0
    for part in row:
        box = part.bounding_box()
        right = end + APART_MM - box[0] if placed else 0.0
        placed.append(part.translate((right, 0, 0)))
        end = box[3] + right
    return placed


def _cut(solid: Manifold, sides: Iterable[CrossSection], thickness: float) -> list[Manifold]:
    """Return a solid in parts: what is on one side after the other, and the rest."""
    parts, rest = [], solid
    for side in sides:
        parts.append(rest ^ _stepped(side, -GAP_MM / 2, thickness))
        rest = rest - _stepped(side, GAP_MM / 2, thickness)
    return [*parts, rest]


def _left_of(seam: Seam) -> CrossSection:
    """Return all that is left of a seam, which goes on beyond both of its ends."""
    from manifold3d import CrossSection

    (start, top), (end, bottom) = seam[0], seam[-1]
    far, above, below = start - FAR_MM, top - BEYOND_MM, bottom + BEYOND_MM
    ring = [(far, above), (start, above), *seam[1:-1], (end, below), (far, below)]
    return CrossSection([[(x, -y) for x, y in reversed(ring)]])


def _above(seam: Seam) -> CrossSection:
    """Return all that is above a seam that goes across."""
    from manifold3d import CrossSection

    (left, start), (right, end) = seam[0], seam[-1]
    far, before, beyond = start - FAR_MM, left - BEYOND_MM, right + BEYOND_MM
    ring = [(before, far), (before, start), *seam[1:-1], (beyond, end), (beyond, far)]
    return CrossSection([[(x, -y) for x, y in ring]])


def _stepped(side: CrossSection, by: float, thickness: float) -> Manifold:
    """Return it as high as the plate: the upper half, the front, reaches farther.

    The back ends at the seam itself: there the recesses for clips and stabilisers are near.
    """
    from manifold3d import JoinType

    lower, upper = (side.offset(far + by, JoinType.Miter, 4.0) for far in (0.0, LAP_MM))
    half = thickness / 2
    return lower.extrude(half) + upper.extrude(thickness - half).translate((0, 0, half))
