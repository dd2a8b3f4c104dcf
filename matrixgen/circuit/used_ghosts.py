"""The ghosts that a keymap's own combinations make, asked for directly.

Of all ghosts of a large matrix they are a few, so they are not picked from the others: ways of
current are followed through those keys alone that a use of the keymap has down together. Most of
these are keys that hold a layer or are modifiers; one more at most is any other key.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from matrixgen.circuit.combinations import MOST_MODIFIERS, KeyUse, Uses
from matrixgen.circuit.effort import Effort
from matrixgen.circuit.ghosts import ENDLESS, CurrentPath, Ghost
from matrixgen.circuit.network import Network
from matrixgen.model import Contact
from matrixgen.record import Record


class UsedGhost(Record):
    """A ghost, and the use of the keymap that has its keys down."""

    ghost: Ghost
    use: KeyUse


def used_ghosts(
    network: Network, uses: Uses, effort: Effort | None = None
) -> tuple[UsedGhost, ...]:
    """Return every ghost that a use makes while no part of its keys makes one, smallest first.

    Each comes once, with the first use that makes it; those of one size by the key that is seen.
    Where the effort is spent, there may be others.
    """
    effort = effort or Effort(ENDLESS)
    if not network.can_ghost:
        return ()
    found: dict[tuple[Contact, ...], UsedGhost] = {}
    asked: set[tuple[frozenset[str], frozenset[str], frozenset[str]]] = set()
    for use in uses.all:
        down = (use.held, use.modifiers, use.others)
        if down in asked:
            continue  # other layers, and the same keys
        asked.add(down)
        if not effort.spend(len(network.matrix.contacts) // 4):  # to find those that are down
            break
        for ghost in _Follow(network, use, effort).ghosts():
            found.setdefault((ghost.seen, *ghost.pressed), UsedGhost(ghost, use))
    order = {one: place for place, one in enumerate(network.matrix.contacts)}

    def place(one: UsedGhost) -> tuple[int, list[int]]:
        ghost = one.ghost
        return len(ghost.pressed), [order[key] for key in (ghost.seen, *ghost.pressed)]

    return tuple(sorted(found.values(), key=place))


class _Follow:
    """The ways of current through the keys of one use."""

    def __init__(self, network: Network, use: KeyUse, effort: Effort) -> None:
        self.network = network
        self.effort = effort
        self.use = use
        self._few = use.held | use.modifiers
        self._all = self._few | use.others
        self.seen_at: Mapping[tuple[int, int], list[Contact]] = _by_crossing(network)
        self._into = [self._sorted(keys) for keys in network.into_drive]
        self._out = [self._sorted(keys) for keys in network.out_of_drive]

    def _sorted(self, keys: Sequence[Contact]) -> tuple[list[Contact], list[Contact]]:
        """Return the keys of a line that may be down: all of them, and those without the others."""
        down = [one for one in keys if one.key in self._all]
        return down, [one for one in down if one.key in self._few]

    def into_drive(self, sense: int, has_other: bool) -> list[Contact]:
        """Return the keys by which current may leave a sensed line."""
        return self._into[sense][has_other]

    def out_of_drive(self, drive: int, has_other: bool) -> list[Contact]:
        """Return the keys by which current may leave a driven line."""
        return self._out[drive][has_other]

    def is_other(self, key: str) -> bool:
        """Whether a key is down as the one that is no modifier and holds nothing."""
        return key not in self._few

    def is_modifier(self, key: str) -> bool:
        """Whether a key is down as a modifier."""
        return key not in self.use.held and key in self.use.modifiers

    def ghosts(self) -> Iterator[Ghost]:
        for sense in range(len(self.network.matrix.senses)):
            yield from _UsedWay(self, sense).ways()


def _by_crossing(network: Network) -> dict[tuple[int, int], list[Contact]]:
    found: dict[tuple[int, int], list[Contact]] = defaultdict(list)
    for one in network.matrix.contacts:
        found[one.drive, one.sense].append(one)
    return dict(found)


class _UsedWay(CurrentPath):
    """A way through the keys of one use, from one sensed line on."""

    def __init__(self, follow: _Follow, sense: int) -> None:
        super().__init__(follow.network, sense)
        self._follow = follow
        self._others = 0
        self._modifiers = 0

    def ways(self) -> Iterator[Ghost]:
        """Yield each way from here on that ends as a ghost."""
        for contact in self._follow.into_drive(self._senses[-1], self._others > 0):
            if not self._follow.effort.spend():
                return
            if contact.drive in self._drives or self._is_cut_short(contact.drive, 1):
                continue
            self._take(contact, 1)
            if self._fits():
                seen = self._seen(contact.drive)
                yield from self._ended(seen) if seen else self._go_on(contact.drive)
            self._take(contact, -1)

    def _go_on(self, drive: int) -> Iterator[Ghost]:
        """Yield the ways that leave a driven line again."""
        self._drives.append(drive)
        for back in self._follow.out_of_drive(drive, self._others > 0):
            if not self._follow.effort.spend():
                break
            if back.sense in self._senses:
                continue
            self._take(back, 1)
            if self._fits() and not self._is_a_way_back(back.sense):
                self._senses.append(back.sense)
                yield from self.ways()
                self._senses.pop()
            self._take(back, -1)
        self._drives.pop()

    def _take(self, contact: Contact, step: int) -> None:
        """Put a key at the way's end, or take it off again."""
        if step > 0:
            self._way.append(contact)
        else:
            self._way.pop()
        self._others += step * self._follow.is_other(contact.key)
        self._modifiers += step * self._follow.is_modifier(contact.key)

    def _fits(self) -> bool:
        """Whether no more keys are down than fingers press at once; `Use.has` looks closer."""
        return self._others <= 1 and self._modifiers + self._others <= MOST_MODIFIERS + 1

    def _seen(self, drive: int) -> list[Contact]:
        """Return the keys that are seen by mistake where the way ends on a driven line."""
        if len(self._senses) == 1:
            return []
        return self._follow.seen_at.get((drive, self._senses[0]), [])

    def _ended(self, seen: Sequence[Contact]) -> Iterator[Ghost]:
        if self._follow.use.has(one.key for one in self._way):
            yield from (Ghost(tuple(self._way), one) for one in seen)
