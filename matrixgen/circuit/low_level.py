"""The level of one pressed key."""

from __future__ import annotations

from matrixgen.model import Contact
from matrixgen.record import Record


class LowLevel(Record, kw_only=True):
    """What the sensed pin of a pressed key reads at worst; volts, amperes.

    `limit` is V_IL, at or below which the pin is sure to read low. `down` counts the keys of the
    driven line that are down, and `sunk` is what its pin takes in then. `fed_by` counts the other
    lines whose pull-ups feed the sensed line.
    """

    contact: Contact
    supply: float
    down: int
    fed_by: int
    volts: float
    limit: float
    ampere: float
    diode_volts: float
    output_volts: float
    sunk: float

    @property
    def margin(self) -> float:
        """By how much it is lower than it must be; below zero where it is not."""
        return self.limit - self.volts
