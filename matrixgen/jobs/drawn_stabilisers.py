"""The stabilisers of a drawing: which of its cut-outs are some key's, and which keys have none."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from matrixgen.drawing import DrawnHousing
from matrixgen.model import Plate
from matrixgen.model.geometry import Point
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.openings import housings_of
from matrixgen.record import Record

FARTHEST_MM = 0.5
"""How far a cut-out may be from where the table of stabilisers has it (a choice)."""


class DrawnStabilisers(Record):
    """The statement that says which keys have none, None where all have; and other cut-outs."""

    statement: str | None
    others: tuple[DrawnHousing, ...]


def stabilisers_in(drawn: Sequence[DrawnHousing], plate: Plate, corner: Point) -> DrawnStabilisers:
    """Return what a drawing's cut-outs say of a plate; `corner` is the plate's, in key units.

    Where none of them is a stabiliser's, those of the drawing are of another kind, which leaves
    open what keys have one.
    """
    left, top = corner[0] * UNIT_MM, corner[1] * UNIT_MM
    bars = housings_of(plate)
    of_bar = [_of((bar.middle[0] + left, bar.middle[1] + top), drawn) for bar in bars]
    known = {id(one) for one in of_bar if one}
    others = tuple(one for one in drawn if id(one) not in known)
    having = {bar.key for bar, one in zip(bars, of_bar, strict=True) if one}
    without = dict.fromkeys(bar.key for bar in bars if bar.key not in having)
    said = f"  stabiliser none {' '.join(without)}" if having and without else None
    return DrawnStabilisers(said, others)


def _of(at: Point, drawn: Sequence[DrawnHousing]) -> DrawnHousing | None:
    """Return the cut-out that is where a stabiliser's has to be."""
    nearest = min(drawn, key=lambda one: dist(one.at, at), default=None)
    return nearest if nearest and dist(nearest.at, at) <= FARTHEST_MM else None
