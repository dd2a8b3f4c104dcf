"""How long the sensed lines need to go back to high after a driven line was let go."""

from __future__ import annotations

import math

from matrixgen.boards import Mounted
from matrixgen.model import Matrix

DIODE_FARAD = 4e-12
"""A 1N4148's largest capacitance, at 0 V (Vishay 81857 rev. 1.4, electrical characteristics)."""

WIRE_FARAD = 25e-12
"""Half a metre of wire at 50 pF/m (common practice, no source)."""


def settle_us(matrix: Matrix, mounted: Mounted) -> int:
    """Return the settling time in whole microseconds, rounded up, at least 1.

    A sensed line that was low rises through its pull-up: t = -R C ln(1 - VIH / VCC), the charging
    of a capacitor from 0 V. R is the profile's largest pull-up and VIH its lowest guaranteed high
    level (both from the datasheet that the profile names); C is the pin, a diode for each key on
    the busiest sensed line, and the wire.
    """
    profile = mounted.profile
    busiest = max((len(line.visits) for line in matrix.senses), default=0)
    farad = profile.pin_farad + busiest * DIODE_FARAD + WIRE_FARAD
    # A profile whose high level is as good as its supply never gets there; its levels are for the
    # electrical rules to blame, not for a logarithm.
    share = min(_high_min(matrix, mounted) / profile.supply_volts, 0.99)
    seconds = -profile.pull_up_ohm_max * farad * math.log(1 - share)
    return max(1, math.ceil(seconds * 1e6 - 1e-9))


def _high_min(matrix: Matrix, mounted: Mounted) -> float:
    """Return the highest VIH min, in volts, of the pins that sense."""
    profile = mounted.profile
    pins = (mounted.pin_of(line) for line in matrix.senses)
    levels = [profile.levels_of(pin).high_min for pin in pins if pin]
    return max(levels, default=profile.input_high_volts)
