"""The plate's back: where legs and diodes lie, and the route of each wire, in millimetres."""

from matrixgen.routing.back import Back, Hop, Run, back_of
from matrixgen.routing.places import Bundle, Joint, Placed, PlacedDiode

__all__ = ["Back", "Bundle", "Hop", "Joint", "Placed", "PlacedDiode", "Run", "back_of"]
