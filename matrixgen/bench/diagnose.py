"""From what the bench saw to the faults that explain it.

An explanation is a set of one or two faults with which the netlist shows exactly what was seen, and
of which none can be left out. All of them are found: a suspect is tried with another one only if it
touches what the first leaves unexplained, and no other pair can explain all. Faults that no key
shows, such as a turned diode on a piece of wire that is cut off, are in no explanation.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from matrixgen.bench.effect import MOVES_LEADS, FaultEffect
from matrixgen.bench.netlist import Netlist, Pairs
from matrixgen.bench.observe import Exchange, Seen, netlist_with
from matrixgen.bench.suspects import Suspect, Suspects, act_on_each_other, bits, can_end, mask
from matrixgen.record import Record

MOST_EXCHANGED = 4
"""Keys that two exchanges can move, at most."""


class Explanation(Record):
    """Effects that explain all that was seen, and keys that sit at each other's place."""

    effects: tuple[FaultEffect, ...]
    exchanges: tuple[Exchange, ...] = ()

    @property
    def size(self) -> int:
        """How many faults it takes."""
        return len(self.effects) + len(self.exchanges)

    @property
    def rarity(self) -> tuple[int, int]:
        """A key by which likely explanations come first: few faults, and of common kinds."""
        return self.size, sum(one.rarity for one in self.effects) + 2 * len(self.exchanges)


def explanations(suspects: Suspects, seen: Seen) -> list[Explanation]:
    """Return every explanation of one or two faults, likely ones first.

    The list is empty where there is none; where nothing is wrong, it has one without faults.
    """
    found = list(_Search(suspects, seen).all())
    return sorted(found, key=lambda one: one.rarity)


class _Search:
    """One search: what differs from a board that is whole, and what each suspect leaves of it."""

    def __init__(self, suspects: Suspects, seen: Seen) -> None:
        self._of, self._seen = suspects, seen
        self._all = suspects.all
        self._known = mask(seen.keys)
        self._differs = mask(
            key for key, pairs in seen.keys.items() if pairs != suspects.healthy[key]
        ) | (suspects.at_rest if seen.rest else 0)
        self._left = [self._left_by(one) for one in self._all]
        self._singles = {number for number, left in enumerate(self._left) if not left}
        self._rest_pins = {pin for pair in seen.rest for pin in pair}

    def all(self) -> Iterator[Explanation]:
        """Yield each explanation."""
        if not self._differs:
            yield Explanation(())
            return
        for number in sorted(self._singles):
            yield Explanation((self._all[number].effect,))
        yield from self._exchanges()
        yield from self._pairs()

    def _left_by(self, one: Suspect) -> int:
        """Return what is not as seen with one suspect in the netlist."""
        wrong = mask(
            key
            for key, pairs in one.looks.items()
            if key in self._seen.keys and self._seen.keys[key] != pairs
        )
        if one.rest != self._seen.rest and one.alters & self._of.at_rest:
            wrong |= self._of.at_rest
        return (self._differs & ~one.alters) | wrong

    def _pairs(self) -> Iterator[Explanation]:
        first = min(bits(self._differs), key=lambda bit: len(self._of.touching.get(bit, ())))
        if self._differs & self._of.at_rest:
            first = self._of.at_rest
        starts = self._of.touching.get(first, [])
        before = set(starts)
        for number in starts:
            if number in self._singles:
                continue
            for other in self._partners(number):
                if other in self._singles or (other in before and other <= number):
                    continue
                ordered = self._explained(number, other)
                if ordered:
                    yield Explanation(ordered)

    def _partners(self, number: int) -> Iterator[int]:
        """Yield those that could explain what one suspect leaves, each once."""
        left = self._left[number]
        touching = self._of.touching.get(left & -left, [])
        yield from touching
        known = set(touching)
        yield from (one for one in self._of.acting_on[number] if one not in known)

    def _explained(self, number: int, partner: int) -> tuple[FaultEffect, ...] | None:
        """Return two effects, in the order in which they explain all; None where they do not."""
        one, other = self._all[number], self._all[partner]
        is_one = one.effect.faults == other.effect.faults  # a break that cuts off both its sides
        if is_one or self._differs & ~(one.touches | other.touches):
            return None
        if one.on & other.on and act_on_each_other(one.effect, other.effect):
            may_be = self._may_rest(one, other)
        else:
            may_be = one.rest | other.rest == self._seen.rest and self._may_add(number, partner)
        return self._tried(one, other) if may_be else None

    def _may_add(self, number: int, partner: int) -> bool:
        """Whether what each of two suspects shows wrongly is touched by the other one."""
        one, other = self._all[number], self._all[partner]
        wrong = self._left[number] & one.alters & ~other.touches
        return not wrong | (self._left[partner] & other.alters & ~one.touches)

    def _may_rest(self, one: Suspect, other: Suspect) -> bool:
        """Whether two suspects can show what was seen at rest, as far as a quick look tells."""
        if not one.rest and not other.rest:
            return not self._seen.rest
        if not self._seen.rest:
            return (not one.rest or can_end(other.effect)) and (
                not other.rest or can_end(one.effect)
            )
        return any(pin in self._rest_pins for pair in one.rest | other.rest for pin in pair)

    def _tried(self, one: Suspect, other: Suspect) -> tuple[FaultEffect, ...] | None:
        effects = (one.effect, other.effect)
        touched = (one.touches | other.touches) & self._known
        first = self._differs & self._known
        order = [bit.bit_length() - 1 for bit in (*bits(first), *bits(touched & ~first))]
        moves = all(effect.what in MOVES_LEADS for effect in effects)
        for ordered in (effects, effects[::-1]) if moves and one.on & other.on else (effects,):
            if self._shows(netlist_with(self._of.board, *ordered), order):
                return ordered
        return None

    def _shows(self, netlist: Netlist, keys: list[int]) -> bool:
        if netlist.at_rest() != self._seen.rest:
            return False
        return all(netlist.pressed(key) == self._seen.keys[key] for key in keys)

    def _exchanges(self) -> Iterator[Explanation]:
        """Yield the explanations in which keys sit at each other's place."""
        healthy = dict(enumerate(self._of.healthy))
        single = self._swap(self._differs, healthy)
        if single:
            yield Explanation((), (single,))
        yield from self._two_exchanges(healthy)
        for number, one in enumerate(self._all):
            swap = self._swap(self._left[number], one.looks)
            if swap and swap != single:
                yield Explanation((one.effect,), (swap,))

    def _swap(self, left: int, looks: dict[int, Pairs]) -> Exchange | None:
        """Return the two keys that are all that is left, if each shows what the other should."""
        if left.bit_count() != 2 or left & self._of.at_rest:
            return None
        x, y = (bit.bit_length() - 1 for bit in bits(left))
        look = [looks.get(key, self._of.healthy[key]) for key in (x, y)]
        seen = [self._seen.keys[key] for key in (y, x)]
        return (x, y) if look == seen else None

    def _two_exchanges(self, healthy: dict[int, Pairs]) -> Iterator[Explanation]:
        if self._differs & self._of.at_rest or not 3 <= self._differs.bit_count() <= MOST_EXCHANGED:
            return
        keys = [bit.bit_length() - 1 for bit in bits(self._differs)]
        pairs = list(combinations(keys, 2))
        for swaps in ((one, other) for one in pairs for other in pairs if one != other):
            if set(swaps[0]).isdisjoint(swaps[1]) and swaps[0] > swaps[1]:
                continue
            places = {key: key for key in keys}
            for x, y in swaps:
                places[x], places[y] = places[y], places[x]
            if all(healthy[places[key]] == self._seen.keys[key] for key in keys):
                yield Explanation((), swaps)
