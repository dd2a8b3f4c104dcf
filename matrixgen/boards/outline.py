"""A board's outline and where its pads are, in millimetres, seen from the component side."""

from __future__ import annotations

from matrixgen.boards.edge import Edge
from matrixgen.model.geometry import Point
from matrixgen.record import Record

PITCH_MM = 2.54
"""From one pad to the next along an edge, as every such board has them (common practice)."""

FAR_EDGE_MM = 1.27
"""From the far edge to the pads along it (from memory)."""


class BoardOutline(Record, kw_only=True):
    """A board's size, and where its two rows of pads are.

    Points are measured from the middle of the edge with the USB socket: x to the right and y away
    from it, seen from the component side, in millimetres. `overhang` is how far the socket stands
    out, `rows` how far the left and the right row are from the left edge, and `first` how far their
    first pads are from the edge with the socket.
    """

    length: float
    width: float
    overhang: float
    rows: tuple[float, float]
    first: float

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The board's corners, one after another; the socket stands out beyond them."""
        half = self.width / 2
        return (-half, 0.0), (half, 0.0), (half, self.length), (-half, self.length)

    def pad(self, edge: Edge, number: int) -> Point:
        """Return the middle of a pad of an edge, counted from 0 as `Edge.names` are."""
        if edge.side in ("left", "right"):
            row = self.rows[edge.side == "right"]
            return row - self.width / 2, self.first + number * PITCH_MM
        y = FAR_EDGE_MM if edge.side == "top" else self.length - FAR_EDGE_MM
        return (number - (len(edge.names) - 1) / 2) * PITCH_MM, y

    def outside(self, edge: Edge, number: int, out: float) -> Point:
        """Return the place beside a pad, so far outside of the board."""
        x, y = self.pad(edge, number)
        half = self.width / 2 + out
        beside = {"left": (-half, y), "right": (half, y), "top": (x, -out)}
        return beside.get(edge.side, (x, self.length + out))
