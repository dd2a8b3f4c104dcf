"""What draws a line up or down at its pin: the pull-up, and what the board has there.

A resistor goes to ground or to the supply. A light is a resistor in series with an LED, which drops
at least `LIGHT_VOLTS` while it conducts, and conducts no more where less than that is left.
"""

from __future__ import annotations

from matrixgen.boards.pin import Pin
from matrixgen.boards.profile import Profile
from matrixgen.record import Record

LIGHT_VOLTS = 1.6
"""What an LED drops at least: a red one at 0.1 mA (common practice, no source)."""

LIGHT_OHM = 1000.0
"""The resistor of a light where the profile does not say: a planning figure, no source."""


class Feed(Record):
    """Where a line is drawn to, and how strongly: volts behind a resistance in ohms."""

    volts: float
    ohm: float


def joined(one: Feed, other: Feed) -> Feed:
    """Return two feeds of one line as a single one (Thevenin's theorem)."""
    siemens = 1 / one.ohm + 1 / other.ohm
    return Feed((one.volts / one.ohm + other.volts / other.ohm) / siemens, 1 / siemens)


def part_feed(pin: Pin | None, supply: float) -> Feed | None:
    """Return what the part on a pin draws its line to, at a supply in volts; None without one."""
    if pin is None or pin.part is None:
        return None
    ends = 0.0 if draws_down(pin) else supply
    if pin.part.startswith("light"):
        ends = LIGHT_VOLTS if draws_down(pin) else max(0.0, supply - LIGHT_VOLTS)
    return Feed(ends, pin.part_ohm or LIGHT_OHM)


def draws_down(pin: Pin) -> bool:
    """Whether the part on a pin goes to ground."""
    return pin.part is not None and pin.part.endswith("ground")


def strongest_feed(profile: Profile, pin: Pin | None) -> Feed:
    """Return what draws a low line up at most; a pin that is not known has the usual pull-up.

    What goes to ground would only help, and is not counted.
    """
    ohm = profile.pull_up_of(pin).min
    pull_up, part = Feed(profile.supply_volts, ohm), part_feed(pin, profile.supply_volts)
    if pin is None or part is None or draws_down(pin):
        return pull_up
    return joined(pull_up, part)


def weakest_feed(profile: Profile, pin: Pin | None) -> Feed:
    """Return what an idle line is drawn to at the least; a light to the supply is out then."""
    ohm = profile.pull_up_of(pin).max
    pull_up, part = Feed(profile.supply_volts, ohm), part_feed(pin, profile.supply_volts)
    if part is None or (pin and pin.part == "light to supply"):
        return pull_up
    return joined(pull_up, part)
