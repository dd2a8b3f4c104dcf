"""How far an idle sensed line falls in the heat, because diodes leak backwards.

A diode blocks while its driven line rests higher than its sensed one. That takes other keys: some
pull sensed lines low through the line that is driven, others of theirs, on an idle driven line,
stand against its pull-up, and a key of the line in question takes that line along. With S lines low
and m idle driven lines that makes S + m + S m keys, S m diodes that leak, and the pull-ups of m + 1
lines against them: V = V_th - S m I_R R_th (Kirchhoff's current law; what the key of the line in
question drops is left out, and would leave it higher).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from matrixgen.boards import DiodePart, Mounted
from matrixgen.boards.on_board import Feed, joined, weakest_feed
from matrixgen.circuit.planned import WARMEST_CELSIUS
from matrixgen.model import Contact, Line, Matrix
from matrixgen.record import Record

MOST_KEYS = 10
"""Keys that are down at once at most: all fingers (a choice)."""


class HighLevel(Record, kw_only=True):
    """What an idle sensed line falls to at worst; volts, amperes, ohms.

    `limit` is V_IH, at or above which the pin is sure to read high. `low` other sensed lines are
    low then, and `idle` driven ones fall with the line; each of the diodes between them leaks
    `ampere`. `feed` is what holds the lines up that fall.
    """

    line: Line
    supply: float
    volts: float
    limit: float
    low: int
    idle: int
    ampere: float
    feed: Feed

    @property
    def diodes(self) -> int:
        """How many diodes leak."""
        return self.low * self.idle

    @property
    def keys(self) -> int:
        """How many keys are down for it."""
        return self.low + self.idle + self.diodes

    @property
    def margin(self) -> float:
        """By how much it is higher than it must be; below zero where it is not."""
        return self.volts - self.limit


class Leakage(Record):
    """A keyboard on a controller with one kind of diode, asked how far its lines fall.

    All is over the whole range of the supply. Nothing is said where the leakage is not known.
    """

    mounted: Mounted
    matrix: Matrix
    diode: DiodePart

    @property
    def is_sure(self) -> bool:
        """Whether no line falls below what is sure to read high, as far as is known."""
        return self.worst is None or self.worst.margin >= 0

    @cached_property
    def worst(self) -> HighLevel | None:
        """The line with the least margin; None where nothing leaks, or nothing is known of it."""
        ampere = self.diode.leak_ampere(WARMEST_CELSIUS.value)
        if ampere is None:
            return None
        found = (
            high
            for mounted in self.mounted.at_supplies
            for sense in range(len(self.matrix.senses))
            for high in self._falls(mounted, sense, ampere)
            if high.feed.volts >= high.limit  # or else what the board has on a pin is to blame
        )
        return min(found, key=lambda high: round(high.margin, 9), default=None)

    def _falls(self, mounted: Mounted, sense: int, ampere: float) -> Iterator[HighLevel]:
        """Yield how far a sensed line falls, for each number of idle driven lines."""
        on_line = [one for one in self._blocking if one.sense == sense]
        columns = sorted({one.drive for one in on_line}, key=lambda drive: -self._others[drive])
        line, profile = self.matrix.senses[sense], mounted.profile
        pin = mounted.pin_of(line)
        feed = weakest_feed(profile, pin)
        for idle, drive in enumerate(columns[:-1], start=1):  # one more is driven
            low = min(self._others[drive], (MOST_KEYS - idle) // (1 + idle))
            if low < 1:
                return
            beside = mounted.pin_of(self.matrix.drives[drive])
            feed = joined(feed, weakest_feed(profile, beside))
            yield HighLevel(
                line=line,
                supply=profile.supply_volts,
                volts=max(0.0, feed.volts - low * idle * ampere * feed.ohm),
                limit=profile.levels_of(pin).high_min,
                low=low,
                idle=idle,
                ampere=ampere,
                feed=feed,
            )

    @cached_property
    def _blocking(self) -> tuple[Contact, ...]:
        return tuple(one for one in self.matrix.contacts if one.diode == "toward")

    @cached_property
    def _others(self) -> list[int]:
        """How many keys with a diode each driven line has, less one."""
        counts = [-1] * len(self.matrix.drives)
        for one in self._blocking:
            counts[one.drive] += 1
        return counts
