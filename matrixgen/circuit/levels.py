"""How low a sensed pin gets when a key is pressed, in the worst case.

The current of the sensed line's pull-up flows through switch and diode into the driven pin, so that
the sensed pin stays above ground by what they drop: V = V_OL + V_F(I) + I R_switch. It is highest
with the strongest pull-up, in the cold, with the diode of the bag that drops most, and with all the
keys of the driven line down, whose currents the driven pin sinks too.

Where keys have no diode, other lines' pull-ups feed the sensed line too, through more pressed keys.
Then what is given is a bound: as if all of them did so through the one key.
"""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards import Mounted, builtin_diodes
from matrixgen.boards.diode_part import DiodePart, ForwardDrop
from matrixgen.circuit.network import Network
from matrixgen.circuit.planned import COLDEST_CELSIUS, SWITCH_OHM
from matrixgen.circuit.solve import Circuit, Volts, ampere_through, volts
from matrixgen.model import Contact, Line, Matrix
from matrixgen.record import Record

MOST_ROUNDS = 50
EXACT_AMPERE = 1e-9


class LowLevel(Record, kw_only=True):
    """What the sensed pin of a pressed key reads at worst; volts, amperes.

    `limit` is V_IL, at or below which the pin is sure to read low. `sunk` is what the driven pin
    takes in with all of the driven line's keys down. `fed_by` counts the other lines whose pull-ups
    can feed the sensed line.
    """

    contact: Contact
    fed_by: int
    volts: float
    limit: float
    ampere: float
    diode_volts: float
    switch_volts: float
    output_volts: float
    sunk: float

    @property
    def margin(self) -> float:
        """By how much it is lower than it must be; below zero where it is not."""
        return self.limit - self.volts


class Levels(Record):
    """A keyboard on a controller with one kind of diode, asked for its low levels."""

    mounted: Mounted
    matrix: Matrix
    diode: DiodePart

    @cached_property
    def drop(self) -> ForwardDrop:
        """The forward curve of the worst diode in the cold."""
        return self.diode.drop(COLDEST_CELSIUS.value, worst=True)

    @cached_property
    def worst(self) -> LowLevel | None:
        """The key with the least margin, the first in plate order of several; None without keys."""
        return min(self.all, key=lambda level: round(level.margin, 9), default=None)

    @cached_property
    def all(self) -> tuple[LowLevel, ...]:
        """The level of each key that can be seen, in plate order."""
        network = Network(self.matrix)
        sunk = [self._sunk(drive) for drive in range(len(self.matrix.drives))]
        seen = (one for one in self.matrix.contacts if one.diode != "away")
        return tuple(
            self._level(one, sunk[one.drive], network.lines_into(one.sense, one.drive))
            for one in seen
        )

    @property
    def with_a_sure_diode(self) -> Levels | None:
        """The same with the first built-in diode with which every key is sure to read low, if any.

        Not one that breaks down at the controller's supply.
        """
        supply = self.mounted.profile.supply_volts
        parts = (part for part in builtin_diodes().values() if part.reverse_volts >= supply)
        others = (Levels(self.mounted, self.matrix, part) for part in parts)
        return next((one for one in others if one.worst and one.worst.margin > 0), None)

    @property
    def diode_to_take(self) -> DiodePart:
        """Its own diode, or where keys are not sure to read low with it, one with which they are.

        Its own where no built-in one is.
        """
        is_sure = self.worst is None or self.worst.margin >= 0
        other = None if is_sure else self.with_a_sure_diode
        return other.diode if other else self.diode

    def strongest_pull_up(self, sense: int) -> float:
        """Return the least resistance of a sensed line's pull-up, in ohms."""
        return self._pull_up(self.matrix.senses[sense])

    def _pull_up(self, line: Line) -> float:
        profile, pin = self.mounted.profile, self.mounted.pin_of(line)
        return profile.pull_up_of(pin).min if pin else profile.pull_up_ohm_min

    def low_max(self, sense: int) -> float:
        """Return V_IL of a sensed line's pin, in volts."""
        profile = self.mounted.profile
        pin = self.mounted.pin_of(self.matrix.senses[sense])
        return profile.levels_of(pin).low_max if pin else profile.input_low_volts

    def most_sunk(self, drive: int) -> float:
        """Return what a driven pin sinks at most, in amperes: all its keys down, no drop at all."""
        keys = (one for one in self.matrix.contacts if one.drive == drive and one.diode != "away")
        supply = self.mounted.profile.supply_volts
        return sum(supply / self.strongest_pull_up(one.sense) for one in keys)

    def _level(self, contact: Contact, sunk: float, fed_by: int) -> LowLevel:
        more = fed_by * self.mounted.profile.supply_volts / self.strongest_pull_up(contact.sense)
        sunk += more
        output = self.mounted.profile.output_low_ohm * sunk
        ampere = self._ampere(contact, output) + more
        switch = ampere * SWITCH_OHM.value
        diode = self.drop.volts(ampere) if contact.diode == "toward" else 0.0
        return LowLevel(
            contact=contact,
            fed_by=fed_by,
            volts=output + diode + switch,
            limit=self.low_max(contact.sense),
            ampere=ampere,
            diode_volts=diode,
            switch_volts=switch,
            output_volts=output,
            sunk=sunk,
        )

    def _ampere(self, contact: Contact, output: float) -> float:
        across = self.mounted.profile.supply_volts - output
        ohm = self.strongest_pull_up(contact.sense) + SWITCH_OHM.value
        if contact.diode == "none":
            return across / ohm
        if (ohm, across) not in self._known:
            self._known[ohm, across] = ampere_through(self.drop, ohm, across)
        return self._known[ohm, across]

    @cached_property
    def _known(self) -> dict[tuple[float, float], float]:
        """Currents through a diode by the resistance and the volts: most keys are alike."""
        return {}

    def _sunk(self, drive: int) -> float:
        """Return what a driven pin takes in with all its keys down: found round by round."""
        keys = [one for one in self.matrix.contacts if one.drive == drive and one.diode != "away"]
        own = self._own_pull_up(drive)
        sunk = 0.0
        for _ in range(MOST_ROUNDS):
            before, output = sunk, self.mounted.profile.output_low_ohm * sunk
            sunk = own + sum(self._ampere(one, output) for one in keys)
            if abs(sunk - before) < EXACT_AMPERE:
                break
        return sunk

    def _own_pull_up(self, drive: int) -> float:
        """Return what a driven pin's own pull-up brings in while the pin is low, in amperes."""
        family = self.mounted.profile.family_record
        if family is not None and not family.pulls_up_while_low:
            return 0.0
        return self.mounted.profile.supply_volts / self._pull_up(self.matrix.drives[drive])

    def circuit(self) -> Circuit:
        """Return what is at the lines, in the worst case, for the levels of any set of keys."""
        profile = self.mounted.profile
        return Circuit(
            supply_volts=profile.supply_volts,
            driver_ohm=profile.output_low_ohm,
            switch_ohm=SWITCH_OHM.value,
            drive_pull_ohm=tuple(map(self._pull_up, self.matrix.drives)),
            sense_pull_ohm=tuple(map(self._pull_up, self.matrix.senses)),
            drop=self.drop,
        )

    def volts(self, pressed: tuple[Contact, ...], drive: int) -> Volts:
        """Return the lines' voltages with some keys pressed, while one driven line is low."""
        return volts(self.circuit(), pressed, drive)
