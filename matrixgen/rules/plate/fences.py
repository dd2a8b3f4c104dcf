"""Whether what is to be kept clear can fence a key in, so that a wire may have no way.

The question is asked before any way is looked for: looking takes a while, and hardly a plate needs
it. The answer may be a needless yes, and is never a wrong no.
"""

from __future__ import annotations

from matrixgen.model import Plate
from matrixgen.model.geometry import Bounds
from matrixgen.model.switch import UNIT_MM
from matrixgen.routing.obstacles import kept_clear

FEWEST = 3
"""Shapes in a fence. No two round or upright shapes that meet have a gap between them to be in."""

MARGIN_MM = 0.02 * UNIT_MM
"""How far two of them may be apart and still be taken to meet."""


def may_fence(plate: Plate) -> bool:
    """Whether enough of what wires keep off meets to go round something.

    None of them may reach into a cut-out: a switch is part of no fence then.
    """
    has_shapes = plate.holes or plate.keep_clear or plate.components
    left = [one.bounds for one in kept_clear(plate)] if has_shapes else []
    while left:
        chain, fresh = 0, [left.pop()]
        while fresh:
            one = fresh.pop()
            chain += 1
            near = [other for other in left if _meet(one, other)]
            left = [other for other in left if not _meet(one, other)]
            fresh += near
        if chain >= FEWEST:
            return True
    return False


def _meet(one: Bounds, other: Bounds) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across >= -MARGIN_MM and down >= -MARGIN_MM
