"""The plate as it is cut: its outline and everything that goes through it, in millimetres."""

from matrixgen.plate.openings import Bar, Circle, Opening, openings_of
from matrixgen.plate.outline import OutlinePath, PathCorner, outline_of
from matrixgen.plate.shape import PlateShape, plate_shape
from matrixgen.plate.stabilisers import Stabiliser, stabilisers_of

__all__ = [
    "Bar",
    "Circle",
    "Opening",
    "OutlinePath",
    "PathCorner",
    "PlateShape",
    "Stabiliser",
    "openings_of",
    "outline_of",
    "plate_shape",
    "stabilisers_of",
]
