"""The sides of a board or package, and what stands along them."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record

Side = Literal["left", "bottom", "right", "top"]

ROUND_THE_BOARD: tuple[Side, ...] = ("left", "bottom", "right", "top")
"""The sides in the order in which one meets them, counter-clockwise from the top left corner."""


class Edge(Record):
    """What stands along one side of a board or package, seen from the component side.

    A board has its USB socket at the top, a chip its pin 1 at the top of the left edge. `names` is
    from top to bottom or from left to right: names of pins of the profile, and the words that are
    printed where there is none, such as GND.
    """

    side: Side
    names: tuple[str, ...]
