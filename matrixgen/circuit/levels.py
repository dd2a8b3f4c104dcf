"""How low a sensed pin gets when a key is pressed, in the worst case, at one supply.

The current of the sensed line's pull-up flows through switch and diode into the driven pin, so that
the sensed pin stays above ground by what they drop: V = V_OL + V_F(I) + I R_switch. It is highest
with the strongest pull-up, in the cold, with the diode of the bag that drops most, and with many
keys of the driven line down, whose currents the driven pin sinks too. What the board has on a pin
(`boards/on_board.py`) counts with its pull-up.

Where keys have no diode, other lines' pull-ups feed the sensed line too, through more pressed keys.
Then what is given is a bound: as if all of them did so through the one key. Where all keys may be
down, that is with ghosts, and otherwise without them: what makes a ghost is told for itself.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from matrixgen.boards import Mounted
from matrixgen.boards.diode_part import DiodePart, ForwardDrop
from matrixgen.boards.on_board import Feed, strongest_feed
from matrixgen.circuit.network import Network
from matrixgen.circuit.planned import COLDEST_CELSIUS, SWITCH_OHM
from matrixgen.circuit.solve import Circuit, Volts, ampere_through, volts
from matrixgen.model import Contact, Diode, Line, Matrix
from matrixgen.record import Record

MOST_ROUNDS = 50
EXACT_AMPERE = 1e-9

Branch = tuple[Feed, Diode]
"""A pressed key as the driven pin sees it: what feeds its sensed line, and its diode."""


class LowLevel(Record, kw_only=True):
    """What the sensed pin of a pressed key reads at worst; volts, amperes.

    `limit` is V_IL, at or below which the pin is sure to read low. `down` counts the keys of the
    driven line that are down, and `sunk` is what its pin takes in then. `fed_by` counts the other
    lines whose pull-ups feed the sensed line.
    """

    contact: Contact
    supply: float
    down: int
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
    """A keyboard on a controller with one kind of diode, asked for its low levels.

    They are those at the profile's supply: `over_supply.py` has them for all of its range.
    `most_down` is how many keys of a driven line are down at most, None for all of them.
    """

    mounted: Mounted
    matrix: Matrix
    diode: DiodePart
    most_down: int | None = None

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
        seen = (one for one in self.matrix.contacts if one.diode != "away")
        return tuple(self.level(one, self.most_down) for one in seen)

    def level(self, contact: Contact, most_down: int | None) -> LowLevel:
        """Return the level of a key while so many keys of its driven line are down, or all."""
        own, drive = self._branch(contact), contact.drive
        others = self._strongest_first[drive]
        here = others.index(own)  # which of several alike makes no difference
        most = None if most_down is None else most_down - 1
        rest = [*others[:here], *others[here + 1 :]][:most]
        ghosts = most_down is None
        feeding = self._feeding(contact.sense, drive, ghosts)[:most]
        more = sum(feeding)
        into_drive = self._into_drive(drive, ghosts)
        if into_drive:
            norton = [*(feed.volts / feed.ohm for feed, _ in rest), *into_drive]
            sunk = self._sunk(drive, (own,)) + sum(sorted(norton, reverse=True)[:most])
        else:
            sunk = self._sunk(drive, (own, *rest))
        output = self.mounted.profile.output_low_ohm * sunk
        ampere = self._ampere(own, output) + more
        switch = ampere * SWITCH_OHM.value
        diode = self.drop.volts(ampere) if contact.diode == "toward" else 0.0
        return LowLevel(
            contact=contact,
            supply=self.mounted.profile.supply_volts,
            down=len(rest) + 1,
            fed_by=len(feeding),
            volts=output + diode + switch,
            limit=self.low_max(contact.sense),
            ampere=ampere,
            diode_volts=diode,
            switch_volts=switch,
            output_volts=output,
            sunk=sunk,
        )

    def feed_of(self, line: Line) -> Feed:
        """Return what draws a line up at the most."""
        return self._feeds[line.name.text]

    def low_max(self, sense: int) -> float:
        """Return V_IL of a sensed line's pin, in volts."""
        profile = self.mounted.profile
        pin = self.mounted.pin_of(self.matrix.senses[sense])
        return profile.levels_of(pin).low_max if pin else profile.input_low_volts

    def most_sunk(self, drive: int) -> float:
        """Return what a driven pin sinks at most, in amperes: all its keys down, no drop at all."""
        feeds = [feed for feed, _ in self._strongest_first[drive]]
        return self._own_current(drive) + sum(feed.volts / feed.ohm for feed in feeds)

    @cached_property
    def _feeds(self) -> dict[str, Feed]:
        lines = (*self.matrix.drives, *self.matrix.senses)
        profile, pin_of = self.mounted.profile, self.mounted.pin_of
        return {line.name.text: strongest_feed(profile, pin_of(line)) for line in lines}

    @cached_property
    def _network(self) -> Network:
        return Network(self.matrix)

    def _branch(self, contact: Contact) -> Branch:
        return self.feed_of(self.matrix.senses[contact.sense]), contact.diode

    @cached_property
    def _strongest_first(self) -> list[list[Branch]]:
        """The keys of each driven line that can be seen, those with most current first."""
        found: list[list[Branch]] = [[] for _ in self.matrix.drives]
        for contact in self.matrix.contacts:
            if contact.diode != "away":
                found[contact.drive].append(self._branch(contact))
        for branches in found:
            branches.sort(key=lambda one: (-one[0].volts / one[0].ohm, one[1] == "toward"))
        return found

    def _feeding(self, sense: int, drive: int, ghosts: bool) -> list[float]:
        """Return what other lines can bring into a sensed line, in amperes, most first.

        They do so by ways that avoid the driven line.
        """
        into = self._network.lines_into(sense, drive, ghosts=ghosts)
        return self._currents_of(into.drives, into.senses)

    def _into_drive(self, drive: int, ghosts: bool) -> list[float]:
        """Return what lines without a key on a driven line can bring into it by others' keys."""
        if (drive, ghosts) not in self._known_feeds:
            own = {one.sense for one in self.matrix.contacts if one.drive == drive}
            into = [self._network.lines_into(sense, drive, ghosts=ghosts) for sense in sorted(own)]
            drives = {number for lines in into for number in lines.drives}
            senses = {number for lines in into for number in lines.senses} - own
            self._known_feeds[drive, ghosts] = self._currents_of(drives, senses)
        return self._known_feeds[drive, ghosts]

    @cached_property
    def _known_feeds(self) -> dict[tuple[int, bool], list[float]]:
        return {}

    def _currents_of(self, drives: Iterable[int], senses: Iterable[int]) -> list[float]:
        lines = [
            *(self.matrix.drives[number] for number in drives),
            *(self.matrix.senses[number] for number in senses),
        ]
        feeds = map(self.feed_of, lines)
        return sorted((feed.volts / feed.ohm for feed in feeds), reverse=True)

    def _ampere(self, branch: Branch, output: float) -> float:
        feed, diode = branch
        across, ohm = max(feed.volts - output, 0.0), feed.ohm + SWITCH_OHM.value
        if diode == "none" or not across:
            return across / ohm
        if (ohm, across) not in self._known:
            self._known[ohm, across] = ampere_through(self.drop, ohm, across)
        return self._known[ohm, across]

    @cached_property
    def _known(self) -> dict[tuple[float, float], float]:
        """Currents through a diode by the resistance and the volts: most keys are alike."""
        return {}

    def _sunk(self, drive: int, branches: tuple[Branch, ...]) -> float:
        """Return what a driven pin takes in with some of its keys down: found round by round."""
        own = self._own_current(drive)
        key = (own, tuple(sorted((feed.volts, feed.ohm, diode) for feed, diode in branches)))
        if key not in self._known_sums:
            self._known_sums[key] = self._round_by_round(own, branches)
        return self._known_sums[key]

    @cached_property
    def _known_sums(self) -> dict[tuple[float, tuple[tuple[float, float, Diode], ...]], float]:
        """What pins take in: most driven lines are alike."""
        return {}

    def _round_by_round(self, own: float, branches: tuple[Branch, ...]) -> float:
        sunk = 0.0
        for _ in range(MOST_ROUNDS):
            before, output = sunk, self.mounted.profile.output_low_ohm * sunk
            sunk = own + sum(self._ampere(one, output) for one in branches)
            if abs(sunk - before) < EXACT_AMPERE:
                break
        return sunk

    def _own_current(self, drive: int) -> float:
        """Return what a driven pin's own pull-up and part bring in while it is low, in amperes."""
        line, profile = self.matrix.drives[drive], self.mounted.profile
        family, feed = profile.family_record, self.feed_of(line)
        ampere = feed.volts / feed.ohm
        if family is None or family.pulls_up_while_low:
            return ampere
        pin = self.mounted.pin_of(line)
        pull_up = profile.pull_up_of(pin).min if pin else profile.pull_up_ohm_min
        return max(0.0, ampere - profile.supply_volts / pull_up)

    def circuit(self) -> Circuit:
        """Return what is at the lines, in the worst case, for the levels of any set of keys.

        The boards' parts are not in it.
        """
        profile = self.mounted.profile
        return Circuit(
            supply_volts=profile.supply_volts,
            driver_ohm=profile.output_low_ohm,
            switch_ohm=SWITCH_OHM.value,
            drive_pull_ohm=tuple(self.feed_of(line).ohm for line in self.matrix.drives),
            sense_pull_ohm=tuple(self.feed_of(line).ohm for line in self.matrix.senses),
            drop=self.drop,
        )

    def volts(self, pressed: tuple[Contact, ...], drive: int) -> Volts:
        """Return the lines' voltages with some keys pressed, while one driven line is low."""
        return volts(self.circuit(), pressed, drive)
