"""A solid plate in parts that a printer has room for, which lie over each other where they meet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.plate.seams import Seam
from matrixgen.plate.shape import PlateShape

if TYPE_CHECKING:
    from manifold3d import CrossSection, Manifold

LAP_MM, GAP_MM = 1.0, 0.1
"""How far the front of the left part reaches over the back of the right one, and how much room is
left on each side (a sliding fit of printed parts is 0.2 to 0.3 mm in all: printers' guides)."""

APART_MM = 10.0
"""How far the parts are from each other in the file."""

FAR_MM = 1000.0


def parts_of(
    solid: Manifold, shape: PlateShape, seams: Sequence[Seam], thickness: float
) -> list[Manifold]:
    """Return the parts of a plate from left to right, moved apart."""
    left = shape.bounds[0]
    parts, rest = [], solid
    for seam in seams:
        side = _left_of(seam, left - FAR_MM)
        parts.append(rest ^ _stepped(side, -GAP_MM / 2, thickness))
        rest = rest - _stepped(side, GAP_MM / 2, thickness)
    return [one.translate((APART_MM * n, 0, 0)) for n, one in enumerate([*parts, rest])]


def _left_of(seam: Seam, far: float) -> CrossSection:
    """Return all that is left of a seam."""
    from manifold3d import CrossSection

    (_, top), (_, bottom) = seam[0], seam[-1]
    ring = [(far, top), *seam, (far, bottom)]
    return CrossSection([[(x, -y) for x, y in reversed(ring)]])


def _stepped(side: CrossSection, by: float, thickness: float) -> Manifold:
    """Return it as high as the plate: the upper half, the front, reaches farther to the right."""
    from manifold3d import JoinType

    lower, upper = (side.offset(far + by, JoinType.Miter, 4.0) for far in (-LAP_MM / 2, LAP_MM / 2))
    half = thickness / 2
    return lower.extrude(half) + upper.extrude(thickness - half).translate((0, 0, half))
