"""All of a plate that a cutter has to know, compensated for the width of its cut."""

from __future__ import annotations

from matrixgen.model import Plate
from matrixgen.model.geometry import Bounds, bounds_of
from matrixgen.plate.openings import Opening, openings_of
from matrixgen.plate.outline import OutlinePath, flat, outline_of
from matrixgen.record import Record


class PlateShape(Record):
    """A plate's outline, and what goes through it."""

    outline: OutlinePath
    openings: tuple[Opening, ...]

    @property
    def bounds(self) -> Bounds:
        """The upright rectangle round the outline."""
        return bounds_of(flat(self.outline))


def plate_shape(plate: Plate, kerf: float = 0.0) -> PlateShape:
    """Return a plate's shape, drawn for a cut that is `kerf` millimetres wide on its line.

    Half of it is lost to either side: what goes through is drawn narrower, the outline wider.
    """
    return PlateShape(
        outline_of(plate, kerf / 2), tuple(one.narrower(kerf / 2) for one in openings_of(plate))
    )
