"""Low levels at one supply, and the same keyboard as a network for ngspice."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.circuit.levels import Levels
from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.planned import SWITCH_OHM
from matrixgen.model import Contact
from tests.circuit.spice import FAIRCHILD, Circuit, node_volts


def every(levels: Levels, down: int | None = None) -> list[LowLevel]:
    """The level of each key that can be seen, with so many keys of its line down, or all."""
    seen = (one for one in levels.matrix.contacts if one.diode != "away")
    return [levels.level(one, down) for one in seen]


def worst(levels: Levels, down: int | None = None) -> LowLevel:
    """The one with the least margin."""
    return min(every(levels, down), key=lambda level: round(level.margin, 9))


def no_level_is_above(levels: Levels, pressed: Sequence[Contact], drive: int) -> int:
    """Assert that ngspice has no key that is down above its level; return how many those are."""
    there = node_volts(circuit_of(levels), pressed, drive, FAIRCHILD)
    of_keys = [one for one in every(levels) if one.contact in pressed]
    of_line = [one for one in of_keys if one.contact.drive == drive]
    assert all(there[f"s{one.contact.sense}"] <= one.volts + 2e-4 for one in of_line)
    return len(of_line)


def circuit_of(levels: Levels) -> Circuit:
    """What is at the lines in the worst case, but for the board's parts."""
    profile, matrix, feeds = levels.mounted.profile, levels.matrix, levels.feeds
    drives, senses = (
        tuple(feeds.of(line).ohm for line in lines) for lines in (matrix.drives, matrix.senses)
    )
    pins = profile.supply_volts, profile.output_low_ohm
    return Circuit(*pins, SWITCH_OHM.value, drives, senses)
