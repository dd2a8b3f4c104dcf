"""Low levels at one supply, and the same keyboard as a network for ngspice."""

from __future__ import annotations

from matrixgen.circuit.levels import Levels
from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.planned import SWITCH_OHM
from tests.circuit.spice import Circuit


def every(levels: Levels, down: int | None = None) -> list[LowLevel]:
    """The level of each key that can be seen, with so many keys of its line down, or all."""
    seen = (one for one in levels.matrix.contacts if one.diode != "away")
    return [levels.level(one, down) for one in seen]


def worst(levels: Levels, down: int | None = None) -> LowLevel:
    """The one with the least margin."""
    return min(every(levels, down), key=lambda level: round(level.margin, 9))


def circuit_of(levels: Levels) -> Circuit:
    """What is at the lines in the worst case, but for the board's parts."""
    profile, matrix, feeds = levels.mounted.profile, levels.matrix, levels.feeds
    drives, senses = (
        tuple(feeds.of(line).ohm for line in lines) for lines in (matrix.drives, matrix.senses)
    )
    pins = profile.supply_volts, profile.output_low_ohm
    return Circuit(*pins, SWITCH_OHM.value, drives, senses)
