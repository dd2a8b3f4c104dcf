"""The plate as a solid to print: 3MF or STL, made and checked to be closed by `manifold3d`.

Its upper side is the front. Switches clip onto 1.5 mm: a thicker plate is recessed from behind.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.geometry import Point
from matrixgen.plate.openings import Bar, Circle
from matrixgen.plate.outline import flat
from matrixgen.plate.shape import PlateShape
from matrixgen.record import changed

if TYPE_CHECKING:
    from manifold3d import CrossSection, Manifold

CLIPPED_MM = 1.5
"""How thick a plate is where a switch clips onto it (a switch maker's catalogue; memory)."""

CLIP_WIDE_MM, CLIP_DEEP_MM = 5.0, 1.5
"""How wide a recess is for a switch's clip, and how far it goes beyond the cut-out (memory)."""

HOUSING_DEEP_MM = 1.0
"""How far the recess round a stabiliser's housing goes beyond its cut-out (a choice)."""

SIDES_OF_A_CIRCLE = 96


def plate_solid(shape: PlateShape, thickness: float) -> Manifold:
    """Return the plate, `thickness` millimetres high, lying on its back at z = 0."""
    from manifold3d import CrossSection

    outline = CrossSection([[_up(at) for at in flat(shape.outline)[::-1]]])
    through = CrossSection()
    for one in shape.openings:
        through += _section(one)
    solid = (outline - through).extrude(thickness)
    if thickness <= CLIPPED_MM:
        return solid
    behind = CrossSection()
    for one in shape.openings:
        for recess in _recesses(one):
            behind += _section(recess)
    return solid - behind.extrude(thickness - CLIPPED_MM)


def _recesses(one: Bar | Circle) -> list[Bar]:
    """Return what is taken off from behind: for both clips of a switch, and round a housing."""
    if isinstance(one, Circle):
        return []
    if one.kind == "stabiliser":
        return [one.narrower(-HOUSING_DEEP_MM)]
    height = one.height + 2 * CLIP_DEEP_MM
    return [changed(one, width=CLIP_WIDE_MM, height=height)]


def _section(one: Bar | Circle) -> CrossSection:
    from manifold3d import CrossSection

    if isinstance(one, Circle):
        section = CrossSection.circle(one.diameter / 2, SIDES_OF_A_CIRCLE)
        return section.translate(_up(one.middle))
    return CrossSection([[_up(at) for at in one.corners[::-1]]])


def _up(at: Point) -> Point:
    return at[0], -at[1]
