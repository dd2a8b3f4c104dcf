"""Which way current can go in a matrix: lines are nodes, keys are edges."""

from __future__ import annotations

from functools import cached_property

from matrixgen.model import Contact, Matrix
from matrixgen.record import Record


class Network(Record):
    """A matrix, asked which way its keys conduct while they are pressed.

    A diode whose band points toward the driven line conducts from the sensed line to the driven
    one, and one that points away the other way; a key without a diode conducts both ways.
    """

    matrix: Matrix

    @cached_property
    def into_drive(self) -> list[list[Contact]]:
        """The keys of each sensed line through which current can leave it for a driven line."""
        return self._by_sense([one for one in self.matrix.contacts if one.diode != "away"])

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

    def lines_into(self, sense: int, drive: int) -> int:
        """Return how many other lines can feed a sensed line by ways that avoid a driven line."""
        if not self.can_ghost:
            return 0
        drives: set[int] = set()
        senses, waiting = {sense}, [sense]
        while waiting:
            into = waiting.pop()
            feeding = {d for d, keys in enumerate(self.out_of_drive) if _has_sense(keys, into)}
            drives |= feeding - {drive}
            new = {s for s, keys in enumerate(self.into_drive) if _has_drive(keys, drives)} - senses
            senses |= new
            waiting += new
        return len(drives) + len(senses) - 1

    @property
    def can_ghost(self) -> bool:
        """Whether any current can flow from a driven line into a sensed one: no ghost without."""
        return any(self.out_of_drive)

    def _by_sense(self, contacts: list[Contact]) -> list[list[Contact]]:
        found: list[list[Contact]] = [[] for _ in self.matrix.senses]
        for contact in contacts:
            found[contact.sense].append(contact)
        return found


def _has_sense(keys: list[Contact], sense: int) -> bool:
    return any(one.sense == sense for one in keys)


def _has_drive(keys: list[Contact], drives: set[int]) -> bool:
    return any(one.drive in drives for one in keys)
