"""Whether what is to be kept clear can fence a key in, so that a wire may have no way.

The question is asked before any way is looked for: looking takes a while, and hardly a plate needs
it. The answer may be a needless yes, and is never a wrong no.
"""

from __future__ import annotations

from matrixgen.model import Plate
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.openings import Bar, housings_of
from matrixgen.rules.plate.cut_outs import head_of

FEWEST = 3
"""Shapes in a fence. No two round or upright shapes that meet have a gap between them to be in."""

MARGIN = 0.02
"""Key units, 0.4 mm, that two of them may be apart and still be taken to meet."""

Rectangle = tuple[float, float, float, float]
"""Left, top, right and bottom, in key units."""


def may_fence(plate: Plate) -> bool:
    """Whether enough holes and areas meet one another to go round something.

    None of them may reach into a cut-out: a switch is part of no fence then.
    """
    left = _boxes(plate)
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


def _boxes(plate: Plate) -> list[Rectangle]:
    """Return what screws' heads and areas lie in, and stabilisers beside them."""
    heads = [
        (hole.x - head, hole.y - head, hole.x + head, hole.y + head)
        for hole in plate.holes
        for head in (head_of(hole),)
    ]
    areas = [(one.x, one.y, one.x + one.width, one.y + one.height) for one in plate.keep_clear]
    return [*heads, *areas, *(map(_round, housings_of(plate)) if heads or areas else ())]


def _round(bar: Bar) -> Rectangle:
    """Return what a cut-out for a stabiliser lies in."""
    across, down = (
        [place / UNIT_MM for place in places] for places in zip(*bar.corners, strict=True)
    )
    return min(across), min(down), max(across), max(down)


def _meet(one: Rectangle, other: Rectangle) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across >= -MARGIN and down >= -MARGIN
