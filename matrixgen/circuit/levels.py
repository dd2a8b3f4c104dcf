"""How low a sensed pin gets when a key is pressed, in the worst case, at one supply.

The current of the sensed line's pull-up flows through switch and diode into the driven pin, so that
the sensed pin stays above ground by what they drop: V = V_OL + V_F(I) + I R_switch. It is highest
with the strongest pull-up, in the cold, with the diode of the bag that drops most, and with many
keys of the driven line down, whose currents the driven pin sinks too. What the board has on a pin
(`boards/on_board.py`) counts with its pull-up.

Where keys have no diode, other lines' pull-ups feed the sensed line too, through more pressed keys.
Then what is given is a bound: as if all of them did so through the one key. Where all keys may be
down, that is with ghosts, and otherwise without them: what makes a ghost is reported by itself.
"""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards import Mounted
from matrixgen.boards.diode_part import DiodePart, ForwardDrop
from matrixgen.boards.on_board import Feed
from matrixgen.circuit.feeds import Feeds
from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.network import Network
from matrixgen.circuit.planned import COLDEST_CELSIUS, SWITCH_OHM
from matrixgen.model import Contact, Diode, Matrix
from matrixgen.record import Record, changed

MOST_ROUNDS = 50
EXACT_AMPERE = 1e-9

Branch = tuple[Feed, Diode]
"""A pressed key as the driven pin sees it: what feeds its sensed line, and its diode."""


class Levels(Record):
    """A keyboard on a controller with one kind of diode, asked for its low levels.

    They are those at the profile's supply: `over_supply.py` has them for all of its range.
    """

    mounted: Mounted
    network: Network
    diode: DiodePart

    @property
    def matrix(self) -> Matrix:
        """The lines and keys of the network."""
        return self.network.matrix

    @cached_property
    def feeds(self) -> Feeds:
        """What draws its lines up."""
        return Feeds(self.mounted, self.network)

    @cached_property
    def drop(self) -> ForwardDrop:
        """The forward curve of the worst diode in the cold."""
        return self.diode.drop(COLDEST_CELSIUS.value, worst=True)

    def level(self, contact: Contact, most_down: int | None) -> LowLevel:
        """Return the level of a key while so many keys of its driven line are down, or all."""
        ghosts, most = most_down is None, None if most_down is None else most_down - 1
        own, drive = self._branch(contact), contact.drive
        feeding: tuple[float, ...] = ()
        if self.network.can_ghost:
            feeding = tuple(self.feeds.into_sense(contact.sense, drive, ghosts)[:most])
        asked = self.drive_kind(drive, ghosts), most, own[0].volts, own[0].ohm, own[1], feeding
        if asked not in self._known_levels:
            self._known_levels[asked] = self._level(contact, most, feeding)
        limit = self.low_max(contact.sense)
        return changed(self._known_levels[asked], contact=contact, limit=limit)

    @cached_property
    def _known_levels(self) -> dict[tuple[object, ...], LowLevel]:
        """One level of all that are alike."""
        return {}

    def _level(self, contact: Contact, most: int | None, feeding: tuple[float, ...]) -> LowLevel:
        """Return a key's level with so many others of its line down, fed by others' currents."""
        own, drive = self._branch(contact), contact.drive
        others = self._strongest_first[drive]
        here = others.index(own)  # which of several alike makes no difference
        rest = [*others[:here], *others[here + 1 :]][:most]
        more = sum(feeding)
        into_drive = self.feeds.into_drive(drive, most is None)
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
            output_volts=output,
            sunk=sunk,
        )

    def low_max(self, sense: int) -> float:
        """Return V_IL of a sensed line's pin, in volts."""
        return self._low_max[sense]

    @cached_property
    def _low_max(self) -> list[float]:
        profile = self.mounted.profile
        pins = map(self.mounted.pin_of, self.matrix.senses)
        return [profile.levels_of(pin).low_max for pin in pins]

    def sense_kind(self, sense: int) -> tuple[float, ...]:
        """Return what sensed lines have in common whose keys get alike levels, if drives are."""
        feed = self.feeds.of(self.matrix.senses[sense])
        return feed.volts, feed.ohm, self.low_max(sense)

    def most_sunk(self, drive: int) -> float:
        """Return what a driven pin sinks at most, in amperes: all its keys down, no drop at all."""
        feeds = [feed for feed, _ in self._strongest_first[drive]]
        return self.feeds.own_current(drive) + sum(feed.volts / feed.ohm for feed in feeds)

    def _branch(self, contact: Contact) -> Branch:
        return self.feeds.of(self.matrix.senses[contact.sense]), contact.diode

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

    def drive_kind(self, drive: int, ghosts: bool) -> int:
        """Return a number that driven lines have in common whose keys and feeds are alike."""
        if (drive, ghosts) not in self._kinds:
            branches = tuple((feed.volts, feed.ohm, d) for feed, d in self._strongest_first[drive])
            into = tuple(self.feeds.into_drive(drive, ghosts))
            said = (self.feeds.own_current(drive), branches, into)
            self._kinds[drive, ghosts] = self._kinds_said.setdefault(said, len(self._kinds_said))
        return self._kinds[drive, ghosts]

    @cached_property
    def _kinds(self) -> dict[tuple[int, bool], int]:
        return {}

    @cached_property
    def _kinds_said(self) -> dict[tuple[object, ...], int]:
        return {}

    def _ampere(self, branch: Branch, output: float) -> float:
        feed, diode = branch
        across, ohm = max(feed.volts - output, 0.0), feed.ohm + SWITCH_OHM.value
        if diode == "none" or not across:
            return across / ohm
        if (ohm, across) not in self._known:
            self._known[ohm, across] = self.drop.ampere_through(ohm, across)
        return self._known[ohm, across]

    @cached_property
    def _known(self) -> dict[tuple[float, float], float]:
        """Currents through a diode by the resistance and the volts: most keys are alike."""
        return {}

    def _sunk(self, drive: int, branches: tuple[Branch, ...]) -> float:
        """Return what a driven pin takes in with some of its keys down: found round by round."""
        own, sunk = self.feeds.own_current(drive), 0.0
        for _ in range(MOST_ROUNDS):
            before, output = sunk, self.mounted.profile.output_low_ohm * sunk
            sunk = own + sum(self._ampere(one, output) for one in branches)
            if abs(sunk - before) < EXACT_AMPERE:
                break
        return sunk
