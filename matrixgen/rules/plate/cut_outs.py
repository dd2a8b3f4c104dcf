"""Which keys' cut-outs a screw's head reaches into, or an area covers."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from matrixgen.model import Area, Hole, Key, Plate
from matrixgen.model.convex import convex, overlap
from matrixgen.model.switch import area_mm, middle_mm
from matrixgen.plate.openings import cut_outs_of
from matrixgen.plate.webs import ROUNDING_MM, is_nearer, may_reach


def under_heads(plate: Plate) -> Iterator[tuple[Hole, list[Key]]]:
    """Yield each hole whose screw's head reaches into cut-outs, with their keys."""
    cut_outs = cut_outs_of(plate) if plate.holes else ()
    for hole in plate.holes:
        middle, far = middle_mm(hole), hole.screw.head_mm / 2
        keys = [plate.key_of[one.key] for one in cut_outs if is_nearer(one, middle, far)]
        if keys:
            yield hole, keys


def under_areas(plate: Plate) -> Iterator[tuple[Area, list[Key]]]:
    """Yield each area that reaches into cut-outs, with their keys."""
    cut_outs = cut_outs_of(plate) if plate.keep_clear else ()
    for area in plate.keep_clear:
        corners = area_mm(area)
        shape, (x, y), (u, v) = convex(corners), corners[0], corners[2]
        middle, far = ((x + u) / 2, (y + v) / 2), hypot(u - x, v - y) / 2
        near = (one for one in cut_outs if may_reach(one, middle, far))
        met = [one for one in near if overlap(shape, convex(one.corners), ROUNDING_MM)]
        if met:
            yield area, [plate.key_of[one.key] for one in met]
