"""Planning values of what no profile and no file says: switches, wire, the room's warmth."""

from __future__ import annotations

from matrixgen.record import Record


class Planned(Record):
    """One value in the unit that its name ends with, and where it comes from."""

    value: float
    meaning: str
    source: str


COLDEST_CELSIUS = Planned(0.0, "the coldest room", "a choice; a cold diode drops more")
WARMEST_CELSIUS = Planned(50.0, "the warmest room", "a choice; a warm diode drops less")
SWITCH_OHM = Planned(
    10.0, "a closed switch", "common practice, no source; a new one has below 1 ohm"
)
WIRE_FARAD_PER_METRE = Planned(
    50e-12, "wire in a bundle, above a metal plate", "common practice, no source"
)
LEAD_METRE = Planned(0.2, "from the last key to the controller", "common practice, no source")
ROUND_THE_BOARD_METRE = Planned(
    0.1,
    "round the controller to its pad, beyond the way right and down the plate to its socket",
    "a choice: boards are 0.03 to 0.06 m long",
)
