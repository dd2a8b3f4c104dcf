"""Ghosts: pressed keys that make a key read as pressed that is not.

While a driven line is low, a sensed line reads low if current can flow from it to the driven line
through pressed keys, by whatever way. Where the way is longer than one key, the key at the crossing
of the two is seen by mistake. This is reachability in a directed graph; a way over several diodes
counts too, although its low level may be too high to be read: see `levels.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from matrixgen.circuit.effort import Effort
from matrixgen.circuit.network import Network
from matrixgen.model import Contact
from matrixgen.record import Record

ENDLESS = 1 << 62


class Ghost(Record):
    """Pressed keys, in the order in which current passes them, and the key seen by mistake.

    The current starts on the sensed line of the key that is seen and ends on its driven line.
    """

    pressed: tuple[Contact, ...]
    seen: Contact

    @property
    def keys(self) -> frozenset[str]:
        """The names of the pressed keys."""
        return frozenset(one.key for one in self.pressed)

    @property
    def back(self) -> tuple[Contact, ...]:
        """The keys that current leaves their driven line by: a diode at any one ends the ghost."""
        return self.pressed[1::2]


def minimal_ghosts(
    network: Network, most_keys: int | None = None, effort: Effort | None = None
) -> Iterator[Ghost]:
    """Yield each set of pressed keys that makes a ghost while no part of it makes one.

    Sets of more than `most_keys` keys are left out. The order is that of the keys that are seen.
    Without an `effort` the search goes on to its end, which may take longer than anybody waits.
    """
    if not network.can_ghost:
        return
    effort = effort or Effort(ENDLESS)
    for seen in network.matrix.contacts:
        if effort.is_spent:
            return
        most = most_keys or len(network.matrix.contacts)
        yield from _GhostSearch(network, seen, most, effort).ways()


def smallest_ghost_size(network: Network, effort: Effort | None = None) -> int | None:
    """Return how many keys the smallest ghost takes, or None where there is no ghost.

    Where the effort is spent, a ghost may take fewer, or be one where none was found.
    """
    if network.rectangles:
        return 3
    first = next(minimal_ghosts(network, effort=effort), None)
    if first is None:
        return None
    sizes = range(3, len(first.pressed), 2)  # a way ends on the other kind of line
    found = (s for s in sizes if next(minimal_ghosts(network, s, effort), None))
    return next(found, len(first.pressed))


def counted_ghosts(network: Network, most: int, effort: Effort | None = None) -> int:
    """Return the number of minimal ghosts, or `most` where there are as many or more.

    Where the effort is spent, there may be more than it returns.
    """
    if network.rectangles >= most:
        return most
    return sum(1 for _ in islice(minimal_ghosts(network, effort=effort), most))


class CurrentPath:
    """A way of current that grows: pressed keys in its order, and the lines that it has met.

    It is given up as soon as a shorter part of it is a ghost of its own: where there is a key
    between two of its lines that are not neighbours on it, and current can flow that way round.
    """

    def __init__(self, network: Network, sense: int) -> None:
        self._network = network
        self._way: list[Contact] = []
        self._senses = [sense]
        self._drives: list[int] = []

    def _is_cut_short(self, drive: int, first: int) -> bool:
        """Whether a key sits between this driven line and an earlier sensed line of the way."""
        crossings = self._network.crossings
        return any((drive, sense) in crossings for sense in self._senses[first:-1])

    def _is_a_way_back(self, sense: int) -> bool:
        """Whether current can also flow back, from this sensed line to an earlier driven one."""
        crossings = self._network.crossings
        for place in range(len(self._drives) - 1, 0, -1):
            if any(one.diode != "none" for one in self._way[2 * place - 1 :]):
                return False
            if (self._drives[place - 1], sense) in crossings:
                return True
        return False


class _GhostSearch(CurrentPath):
    """All ways from the sensed line of one key to its driven line that avoid that key."""

    def __init__(self, network: Network, seen: Contact, most_keys: int, effort: Effort) -> None:
        super().__init__(network, seen.sense)
        self._effort = effort
        self._seen = seen
        self._most = most_keys

    def ways(self) -> Iterator[Ghost]:
        """Yield each way from here on as a ghost."""
        if len(self._way) >= self._most:
            return
        for contact in self._network.into_drive[self._senses[-1]]:
            if not self._effort.spend():
                return
            if contact is self._seen or contact.drive in self._drives:
                continue
            if contact.drive == self._seen.drive:
                if len(self._senses) > 1 and not self._is_cut_short(contact.drive, 1):
                    yield Ghost((*self._way, contact), self._seen)
            elif not self._is_cut_short(contact.drive, 0):
                yield from self._go_on(contact)

    def _go_on(self, contact: Contact) -> Iterator[Ghost]:
        """Yield the ways that take `contact` next, to its driven line, and leave it by another."""
        self._way.append(contact)
        self._drives.append(contact.drive)
        for back in self._network.out_of_drive[contact.drive]:
            if not self._effort.spend():
                break
            if back is self._seen or back.sense in self._senses:
                continue
            self._way.append(back)
            if not self._is_a_way_back(back.sense):
                self._senses.append(back.sense)
                yield from self.ways()
                self._senses.pop()
            self._way.pop()
        self._drives.pop()
        self._way.pop()
