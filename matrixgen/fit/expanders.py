"""Chips that lend a controller more lines: only for comparison, no firmware is written for them."""

from __future__ import annotations

from matrixgen.fit.shapes import Size
from matrixgen.record import Record


class Expander(Record, kw_only=True):
    """A chip whose pins are rows. It takes `controller_pins` of the controller, however many."""

    part: str
    kind: str
    lines: int
    controller_pins: int
    source: str


class ExpandedMatrix(Record):
    """A matrix whose rows are on such chips."""

    expander: Expander
    size: Size

    @property
    def chips(self) -> int:
        """How many of them it takes."""
        return -(-self.size[0] // self.expander.lines)

    @property
    def controller_lines(self) -> int:
        """How many pins of the controller it takes."""
        return self.size[1] + self.expander.controller_pins


EXPANDERS = (
    Expander(
        part="MCP23017",
        kind="port expander",
        lines=16,
        controller_pins=2,
        source="Microchip DS20001952, 16 lines on I2C; from memory",
    ),
    Expander(
        part="74HC595",
        kind="shift register",
        lines=8,
        controller_pins=3,
        source="TI SCLS041, 8 outputs behind data, clock and latch, in a chain; from memory",
    ),
)
"""Usual ones, with the document that counts their pins."""


def with_expanders(keys: int) -> list[ExpandedMatrix]:
    """Return for each the matrix that takes fewest pins of the controller with one chip of it."""
    found = []
    for expander in EXPANDERS:
        rows = min(expander.lines, keys)
        columns = -(-keys // rows)
        found.append(ExpandedMatrix(expander, (-(-keys // columns), columns)))
    return found
