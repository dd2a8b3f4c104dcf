"""Low levels over the whole range of a controller's supply, and the diode that makes them sure."""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property

from matrixgen.boards import DiodePart, Mounted, builtin_diodes
from matrixgen.circuit.leakage import Leakage
from matrixgen.circuit.levels import Levels
from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.network import Network
from matrixgen.model import Contact, Matrix, matrix_of
from matrixgen.record import Record

MOST_DOWN = 10
"""Keys of one driven line that are down at once at most: a whole hand and a half (a choice)."""


class LevelsOverSupply(Record):
    """A keyboard on a controller with one kind of diode, asked for the worst of its low levels.

    `most_down` is how many keys of a driven line are down at most, None for all of them.
    """

    mounted: Mounted
    network: Network
    diode: DiodePart
    most_down: int | None = MOST_DOWN

    @property
    def matrix(self) -> Matrix:
        """The lines and keys of the network."""
        return self.network.matrix

    @cached_property
    def each(self) -> tuple[Levels, ...]:
        """The levels at the least supply, at the usual one, and at the most."""
        return tuple(Levels(one, self.network, self.diode) for one in self.mounted.at_supplies)

    @cached_property
    def worst(self) -> LowLevel | None:
        """The least margin of all, the first in plate order of several; None without keys."""
        each = map(self._worst_of, self._unlike())
        return min(each, key=lambda level: round(level.margin, 9), default=None)

    @cached_property
    def all(self) -> tuple[LowLevel, ...]:
        """The worst level of each key that can be seen, in plate order."""
        return tuple(map(self._worst_of, self._seen))

    @cached_property
    def _seen(self) -> tuple[Contact, ...]:
        return tuple(one for one in self.matrix.contacts if one.diode != "away")

    def _worst_of(self, contact: Contact) -> LowLevel:
        found = (levels.level(contact, self.most_down) for levels in self.each)
        return min(found, key=lambda level: round(level.margin, 9))

    def _unlike(self) -> Collection[Contact]:
        """Return the keys that can be seen, of those that are alike the first in plate order.

        Where nothing comes into a sensed line but by its own keys, two are alike if their lines
        are.
        """
        if self.network.can_ghost:
            return self._seen
        senses = [
            tuple(levels.sense_kind(number) for levels in self.each)
            for number in range(len(self.matrix.senses))
        ]
        drives = [
            tuple(levels.drive_kind(number, self.most_down is None) for levels in self.each)
            for number in range(len(self.matrix.drives))
        ]
        found: dict[object, Contact] = {}
        for one in self._seen:
            found.setdefault((drives[one.drive], senses[one.sense], one.diode), one)
        return found.values()

    def levels_of(self, level: LowLevel) -> Levels:
        """Return the levels at the supply of one of them."""
        return next(one for one in self.each if one.mounted.profile.supply_volts == level.supply)

    def fails_from(self, level: LowLevel) -> int | None:
        """Return with how many keys down a key is not sure to read low any more.

        They are those of its driven line, and where others feed its sensed line, those too. None
        where it is sure with all of them.
        """
        contact = level.contact
        whole = self.each[0].level(contact, None)
        for down in range(1, max(whole.down, whole.fed_by + 1) + 1):
            if any(one.level(contact, down).margin < 0 for one in self.each):
                return down
        return None

    def most_sunk(self, drive: int) -> float:
        """Return what a driven pin sinks at most, in amperes: all its keys down, no drop at all."""
        return max(one.most_sunk(drive) for one in self.each)

    @property
    def is_sure(self) -> bool:
        """Whether every key is sure to read low: looked at until one is not."""
        return all(
            round(levels.level(one, self.most_down).margin, 9) >= 0
            for one in self._seen
            for levels in self.each
        )

    @property
    def with_a_sure_diode(self) -> LevelsOverSupply | None:
        """The same with the first built-in diode with which all is sure to be read, if any.

        Not one that breaks down at the controller's supply, nor one that leaks too much in heat.
        """
        supply = max(self.mounted.profile.supplies)
        parts = [part for part in builtin_diodes().values() if part.reverse_volts >= supply]
        for part in parts:
            other = LevelsOverSupply(self.mounted, self.network, part, self.most_down)
            if other.is_sure and Leakage(self.mounted, self.matrix, part).is_sure:
                return other
        return None


def diode_for(mounted: Mounted, diode: DiodePart) -> DiodePart:
    """Return the diode to take on a controller: this one, if keys are sure to read low with it.

    If not, it is a built-in one with which they are; this one too where none is.
    """
    levels = LevelsOverSupply(mounted, Network(matrix_of(mounted.keyboard)), diode)
    other = None if levels.is_sure else levels.with_a_sure_diode
    return other.diode if other else diode
