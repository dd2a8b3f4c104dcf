"""Which way current can go in a matrix: lines are nodes, keys are edges."""

from __future__ import annotations

from functools import cached_property

from matrixgen.circuit.bits import bits_of
from matrixgen.model import Contact, Matrix
from matrixgen.record import Record


class Lines(Record):
    """Some driven and some sensed lines, by their numbers."""

    drives: tuple[int, ...]
    senses: tuple[int, ...]


class Network(Record):
    """A matrix, asked which way its keys conduct while they are pressed.

    A diode whose band points toward the driven line conducts from the sensed line to the driven
    one, and one that points away the other way; a key without a diode conducts both ways.
    """

    matrix: Matrix

    @cached_property
    def into_drive(self) -> list[list[Contact]]:
        """The keys of each sensed line through which current can leave it for a driven line."""
        found: list[list[Contact]] = [[] for _ in self.matrix.senses]
        for contact in self.matrix.contacts:
            if contact.diode != "away":
                found[contact.sense].append(contact)
        return found

    @cached_property
    def out_of_drive(self) -> list[list[Contact]]:
        """The keys of each driven line through which current can leave it for a sensed line."""
        found: list[list[Contact]] = [[] for _ in self.matrix.drives]
        for contact in self.matrix.contacts:
            if contact.diode != "toward":
                found[contact.drive].append(contact)
        return found

    @cached_property
    def crossings(self) -> frozenset[tuple[int, int]]:
        """Where there is a key: the numbers of its driven and its sensed line."""
        return frozenset((one.drive, one.sense) for one in self.matrix.contacts)

    @cached_property
    def rectangles(self) -> int:
        """How many sets of three keys make a ghost: those at three corners of a rectangle.

        Current goes from a sensed line by one key to a driven line, back by a second one to another
        sensed line, and by a third to the driven line of the fourth corner, which has a key too.
        """
        senses, (_, into) = len(self.matrix.senses), self._feeding
        has_key, goes_in = [0] * senses, [0] * senses
        for one in self.matrix.contacts:
            has_key[one.sense] |= 1 << one.drive
            if one.diode != "away":
                goes_in[one.sense] |= 1 << one.drive
        found = 0
        for back in (one for keys in self.out_of_drive for one in keys):
            ends = goes_in[back.sense] & ~(1 << back.drive)
            starts = bits_of(into[back.drive] & ~(1 << back.sense))
            found += sum((ends & has_key[start]).bit_count() for start in starts)
        return found

    def lines_into(self, sense: int, drive: int, *, ghosts: bool = True) -> Lines:
        """Return the other lines that can feed a sensed line by ways that avoid a driven line.

        Without `ghosts`, not by a sensed line that has a key on the driven one: that key would be
        seen too, pressed or not.
        """
        if not self.can_ghost:
            return Lines((), ())
        asked = sense, drive, ghosts
        if asked not in self._known:
            self._known[asked] = self._lines_into(*asked)
        return self._known[asked]

    @cached_property
    def _known(self) -> dict[tuple[int, int, bool], Lines]:
        """What was asked before: it is the same on each controller and at each supply."""
        return {}

    def _lines_into(self, sense: int, drive: int, ghosts: bool) -> Lines:
        into_sense, into_drive = self._feeding
        passed = -1 if ghosts else ~self._senses_of[drive]
        drives, senses, waiting = 0, 1 << sense, [sense]
        while waiting:
            new_drives = into_sense[waiting.pop()] & ~drives & ~(1 << drive)
            drives |= new_drives
            for feeding in bits_of(new_drives):
                new = into_drive[feeding] & ~senses & passed
                senses |= new
                waiting += bits_of(new)
        return Lines(bits_of(drives), bits_of(senses & ~(1 << sense)))

    def senses_of(self, drive: int) -> tuple[int, ...]:
        """Return the sensed lines that have a key on a driven one."""
        return bits_of(self._senses_of[drive])

    @cached_property
    def _senses_of(self) -> list[int]:
        """The sensed lines that have a key on each driven one, a bit a line."""
        found = [0] * len(self.matrix.drives)
        for one in self.matrix.contacts:
            found[one.drive] |= 1 << one.sense
        return found

    @cached_property
    def _feeding(self) -> tuple[list[int], list[int]]:
        """The driven lines that feed each sensed one, and the other way round, a bit a line."""
        into_sense, into_drive = [0] * len(self.matrix.senses), [0] * len(self.matrix.drives)
        for one in self.matrix.contacts:
            if one.diode != "toward":
                into_sense[one.sense] |= 1 << one.drive
            if one.diode != "away":
                into_drive[one.drive] |= 1 << one.sense
        return into_sense, into_drive

    @property
    def can_ghost(self) -> bool:
        """Whether any current can flow from a driven line into a sensed one: no ghost without."""
        return any(self.out_of_drive)
