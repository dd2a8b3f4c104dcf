"""How long the sensed lines need to go back to high after a driven line was let go.

A sensed line that was low rises through its pull-up alone: t = -R C ln(1 - V_IH / V_CC), the
charging of a capacitor from 0 V. R is its weakest pull-up, V_IH its pin's lowest guaranteed high
level, and C the pin, the junctions of its keys' diodes and its wire. The firmware drives the line
that it lets go high for a moment, so that this one is charged at once. All is at the worst supply
of the controller's range, and what the board has on the pin counts with its pull-up.
"""

from __future__ import annotations

from functools import cached_property
from math import ceil, log

from matrixgen.boards import DiodePart, Mounted, usual_diode
from matrixgen.boards.on_board import weakest_feed
from matrixgen.circuit.lengths import centres_mm, wire_metres
from matrixgen.circuit.planned import WIRE_FARAD_PER_METRE
from matrixgen.model import Contact, Line, Matrix
from matrixgen.record import Record

NEVER_HIGH = 0.99
"""Share of the supply at which a rising line is taken to arrive: one as good as it never does."""


class Rise(Record, kw_only=True):
    """A sensed line that rises: seconds, farads, ohms, volts, metres of wire, keys on it.

    `end` is where it would rise to in time: the supply, unless its board has a part on the pin.

    `farad`, `diodes` and `metres` are those of the line itself or, where a key without a diode may
    join it to a line that has more, of that one: each line brings its own pull-up, so that lines
    which are joined rise no later than the slowest of them.
    """

    line: Line
    seconds: float
    ohm: float
    end: float
    farad: float
    high_min: float
    diodes: int
    metres: float


class Settling(Record):
    """A keyboard on a controller, asked how its sensed lines rise.

    Where nothing is known of its diodes, they are taken to be the usual ones.
    """

    mounted: Mounted
    matrix: Matrix

    @property
    def diode(self) -> DiodePart:
        """What is known of the diodes, or else of the usual ones."""
        return self.mounted.diode or usual_diode()

    @cached_property
    def slowest(self) -> Rise | None:
        """The sensed line that takes longest, the first of several; None where there is none."""
        return max(self.all, key=lambda rise: round(rise.seconds, 15), default=None)

    @cached_property
    def all(self) -> tuple[Rise, ...]:
        """How each sensed line rises, in the order of their numbers."""
        return tuple(self._rise(number) for number in range(len(self.matrix.senses)))

    @cached_property
    def wait_us(self) -> int:
        """The time that the firmware waits, in whole microseconds: rounded up, at least 1."""
        slowest = self.slowest
        return max(1, ceil(slowest.seconds * 1e6 - 1e-9)) if slowest else 1

    @property
    def firmware_us(self) -> int:
        """What the firmware waits: as the file says, rounded up, or else what it must."""
        given = self.mounted.keyboard.wiring.settle_us
        return ceil(given.value) if given else self.wait_us

    @cached_property
    def _metres(self) -> dict[str, float]:
        keyboard = self.mounted.keyboard
        centres, place = centres_mm(keyboard), keyboard.plate.controller
        lines = (*self.matrix.drives, *self.matrix.senses)
        return {line.name.text: wire_metres(line, centres, place) for line in lines}

    def _rise(self, number: int) -> Rise:
        """Return how a sensed line rises at the supply at which it takes longest."""
        at_each = (self._rise_at(one, number) for one in self.mounted.at_supplies)
        return max(at_each, key=lambda rise: round(rise.seconds, 15))

    def _rise_at(self, mounted: Mounted, number: int) -> Rise:
        profile, line = mounted.profile, self.matrix.senses[number]
        largest = max(self._joined(number), key=self._farad)
        pin, farad = mounted.pin_of(line), self._farad(largest)
        feed = weakest_feed(profile, pin)
        high_min = profile.levels_of(pin).high_min
        share = min(high_min / feed.volts, NEVER_HIGH)
        return Rise(
            line=line,
            seconds=-feed.ohm * farad * log(1 - share),
            ohm=feed.ohm,
            end=feed.volts,
            farad=farad,
            high_min=high_min,
            diodes=self._diodes(largest),
            metres=self._metres[largest.name.text],
        )

    def _joined(self, number: int) -> list[Line]:
        """Return a sensed line and, if a key without a diode is on it, every other line too."""
        line = self.matrix.senses[number]
        if any(one.sense == number for one in self._bare):
            return [line, *self.matrix.drives, *self.matrix.senses]
        return [line]

    def _farad(self, line: Line) -> float:
        wire = self._metres[line.name.text] * WIRE_FARAD_PER_METRE.value
        return (
            self.mounted.profile.pin_farad + self._diodes(line) * self.diode.zero_bias_farad + wire
        )

    def _diodes(self, line: Line) -> int:
        bare = {one.key for one in self._bare}
        return len({word.text for word in line.visits} - bare)

    @cached_property
    def _bare(self) -> tuple[Contact, ...]:
        """The keys without a diode."""
        return tuple(one for one in self.matrix.contacts if one.diode == "none")
