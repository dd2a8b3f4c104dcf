"""A controller's pins: what each can do, what else is on it, and the levels that it reads."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record

Use = Literal["free", "shared", "reserved"]
PinPart = Literal["light to ground", "light to supply", "resistor to ground", "resistor to supply"]
Asks = Literal["nothing", "planning", "keys up", "work", "last resort"]


class Thresholds(Record):
    """Guaranteed input levels in volts: `low_max` is VIL max, `high_min` is VIH min.

    The last two say by how many volts each grows with a volt of supply; None where that is not
    known.
    """

    low_max: float
    high_min: float
    low_per_volt: float | None = None
    high_per_volt: float | None = None

    def at(self, supply: float, nominal: float) -> Thresholds:
        """Return the levels at another supply than the one that they are given for, in volts.

        Where it is not known how a level follows the supply, the worse of two guesses is taken:
        that it stays, and that it keeps its share of the supply.
        """
        more, share = supply - nominal, supply / nominal
        low = _moved(self.low_max, self.low_per_volt, more)
        high = _moved(self.high_min, self.high_per_volt, more)
        return Thresholds(
            min(self.low_max, self.low_max * share) if low is None else low,
            max(self.high_min, self.high_min * share) if high is None else high,
            self.low_per_volt,
            self.high_per_volt,
        )


def _moved(level: float, per_volt: float | None, more: float) -> float | None:
    return None if per_volt is None else level + per_volt * more


class SupplyRange(Record):
    """Between which volts the supply of the pins may lie, and who says so."""

    min: float
    max: float
    source: str


class PullUp(Record):
    """The guaranteed range of an internal pull-up in ohms: the strongest and the weakest."""

    min: float
    max: float


ASKS: tuple[Asks, ...] = ("nothing", "planning", "keys up", "work", "last resort")
"""What a second duty may ask of a maker, from the least to the most."""

FREE_COST = 1
NOTHING_COST = 2 + ASKS.index("nothing")
MOST_ASKED = 2 + len(ASKS)
"""The most that a free pin costs (`Pin.cost`), a shared one that asks nothing, any without part."""


class Pin(Record, kw_only=True):
    """One pin: `name` as in the datasheet, `label` as printed on the board if that differs.

    `use` is "free", "shared" (usable, but `duty` is a second duty and `advice` says what to do
    about it) or "reserved". `duty` is worded to follow the pin's name, and `asks` is how much a
    shared pin's asks of a maker, None where that is not known. `part` is what the board has
    on the pin, and `part_ohm` its resistor, None for the usual one (`boards/on_board.py`).
    `levels`, the range of its pull-up in ohms, and `sink_ampere` (amperes that it may sink) are
    None where the profile's own hold: `levels_of`, `pull_up_of` and `sink_ampere_of` of the
    profile tell what holds.
    """

    name: str
    label: str | None
    use: Use
    duty: str | None
    advice: str | None
    output: bool
    pull_up: bool
    levels: Thresholds | None
    pull_up_ohm_min: float | None = None
    pull_up_ohm_max: float | None = None
    sink_ampere: float | None = None
    part: PinPart | None = None
    part_ohm: float | None = None
    asks: Asks | None = None

    @property
    def is_usable(self) -> bool:
        """Whether a line may end here."""
        return self.use != "reserved"

    @property
    def asks_nothing(self) -> bool:
        """Whether its second duty leaves nothing to do."""
        return self.asks == "nothing"

    @property
    def cost(self) -> int:
        """How much there is to think of for a line on it, from 0 up; only its order means anything.

        First come pins that do nothing else, then free ones with a duty, then shared ones by what
        that asks, then those of which that is not known; last are pins with a part on them.
        """
        if self.part is not None:
            return MOST_ASKED + 1
        if self.use == "free":
            return 0 if self.duty is None else 1
        return 2 + ASKS.index(self.asks) if self.asks else MOST_ASKED

    @property
    def shown(self) -> str:
        """The name as a maker finds it: the datasheet's, and the label where there is one."""
        return f"{self.name} ({self.label})" if self.label else self.name
