"""The plate's back: where legs and diodes lie, and the route of each wire, in millimetres."""

from matrixgen.routing.back import Back, back_of
from matrixgen.routing.kept import FindRoutes, KeptRoutes
from matrixgen.routing.places import Placed, PlacedDiode
from matrixgen.routing.wires import Hop, Run
