"""The resistor of each light, and the current through it over the whole range of the supply."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import Mounted, Pin
from matrixgen.model import Light
from matrixgen.record import Record

E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
"""The values of resistors in a decade that an assortment has: IEC 60063, series E12."""

HIGH_TO_LOW = 1.5
"""By how much a pin's resistance may be larger while it is high than while it is
low (from memory of the datasheets: ATmega32U4 0.8 V at 10 mA against 0.7 V, 0.7 V at 5 mA against
0.5 V at 3 V; RP2040 0.68 V at 4 mA against 0.5 V)."""


class LightCurrent(Record, kw_only=True):
    """What flows through a light: from `least` to `most`, in amperes, by a resistor of `ohm`.

    `pin_ohm` is the most that the pin itself adds, and `supply` the range, in volts. `ohm` is None
    where the supply is never more than the LED needs at the least: then nothing flows.
    """

    light: Light
    pin: Pin
    ohm: float | None
    pin_ohm: float
    supply: tuple[float, float]

    @property
    def least(self) -> float:
        """At the lowest supply, by an LED and a pin that take the most of it; 0 for nothing."""
        left = self.supply[0] - self.light.forward[1]
        return max(0.0, left) / (self.ohm + self.pin_ohm) if self.ohm else 0.0

    @property
    def most(self) -> float:
        """At the highest supply, by an LED that takes the least of it and a pin that takes none."""
        return (self.supply[1] - self.light.forward[0]) / self.ohm if self.ohm else 0.0

    @property
    def limit(self) -> float:
        """What the file lets flow, in amperes."""
        return self.light.milliamperes / 1000


def resistor_for(volts: float, ampere: float) -> float:
    """Return the least value of the series E12 with which so many volts drive no more than that."""
    least, decade = volts / ampere, 1.0
    while decade * E12[-1] * (1 + 1e-9) < least:
        decade *= 10
    return next(one * decade for one in (*E12, 10.0) if one * decade * (1 + 1e-9) >= least)


def light_currents(mounted: Mounted) -> Iterator[LightCurrent]:
    """Yield what flows through each light that is on a pin of the controller, in file order."""
    for light in mounted.keyboard.wiring.lights:
        for pin in mounted.pins_of(light):
            yield light_current(mounted, light, pin)


def light_current(mounted: Mounted, light: Light, pin: Pin) -> LightCurrent:
    """Return what flows through a light on a pin."""
    supplies = mounted.profile.supplies
    over = supplies[-1] - light.forward[0]
    low = mounted.profile.output_low_ohm
    return LightCurrent(
        light=light,
        pin=pin,
        ohm=resistor_for(over, light.milliamperes / 1000) if over > 0 else None,
        pin_ohm=low if light.side == "supply" else low * HIGH_TO_LOW,
        supply=(supplies[0], supplies[-1]),
    )
