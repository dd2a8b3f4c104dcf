"""From what the bench saw to the faults that explain it.

An explanation is a set of one or two faults that one board can have, with which the netlist shows
exactly what was seen, and of which none can be left out. All of them are found: a suspect is tried
with another one only if each of the two can change what the other one leaves unexplained, and no
other pair can explain all. Faults that no key shows, such as a turned diode on a piece of wire that
is cut off, are in no explanation.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.faults.effect import FaultEffect, are_possible
from matrixgen.bench.faults.exchanges import one_swap, two_swaps
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.observe import Seen, netlist_with
from matrixgen.bench.faults.suspects import JOINS, Suspect, Suspects, can_change, can_open
from matrixgen.circuit.bits import bits, mask


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
        )
        self._left = [self._left_by(one) for one in self._all]
        self._singles = {
            number
            for number, left in enumerate(self._left)
            if not left and self._all[number].rest == seen.rest
        }
        self._rest_pins = mask(pin for pair in seen.rest for pin in pair)

    def all(self) -> Iterator[Explanation]:
        """Yield each explanation."""
        if not self._differs and not self._seen.rest:
            yield Explanation(())
            return
        for number in sorted(self._singles):
            yield Explanation((self._all[number].effect,))
        yield from self._exchanges()
        yield from self._pairs()

    def _left_by(self, one: Suspect) -> int:
        """Return the keys that are not as seen with one suspect in the netlist."""
        keys = self._seen.keys
        wrong = mask(key for key, pairs in one.looks.items() if key in keys and keys[key] != pairs)
        return (self._differs & ~one.alters) | wrong

    def _exchanges(self) -> Iterator[Explanation]:
        """Yield the explanations in which keys sit at each other's place."""
        seen, healthy = self._seen, self._of.healthy
        if not seen.rest:
            swaps = set(one_swap(seen, self._differs, healthy, {}))
            yield from (Explanation((), (swap,)) for swap in sorted(swaps))
            yield from (
                Explanation((), pair)
                for pair in two_swaps(seen, self._differs, healthy)
                if swaps.isdisjoint(pair)
            )
        for one, left in zip(self._all, self._left, strict=True):
            if left and one.rest == seen.rest:
                for swap in one_swap(seen, left, healthy, one.looks):
                    if seen.rest or swap not in swaps:
                        yield Explanation((one.effect,), (swap,))

    def _pairs(self) -> Iterator[Explanation]:
        starts = self._starts()
        before = set(starts)
        for number in starts:
            if number in self._singles:
                continue
            one, left = self._all[number], self._left[number]
            for other in self._partners(number):
                if other in self._singles or (other in before and other <= number):
                    continue
                yield from self._tried(one, left, self._all[other], self._left[other])
            for half in self._of.halves_beside(one.effect):
                half_left = self._left_by(half)
                if half_left or self._seen.rest:  # else it explains all by itself
                    yield from self._tried(one, left, half, half_left)

    def _starts(self) -> list[int]:
        """Return suspects of which every explanation has one."""
        if self._seen.rest:
            return [
                number
                for number in self._of.resting
                if self._all[number].rest_pins & self._rest_pins
            ]
        touching = self._of.touching
        lists = (touching.get(bit, []) for bit in bits(self._differs))
        return min(lists, key=len)

    def _partners(self, number: int) -> Iterator[int]:
        """Yield those that could explain what one suspect leaves, each once."""
        of, left = self._of, self._left[number]
        mine, is_changed = of.touches[number], of.changed_by(number)
        lists = [of.touching.get(bit, []) for bit in bits(left)]
        if not lists and self._seen.rest:
            lists = [of.resting]
        found = {
            other
            for other in of.changing(number)
            if not left & ~(mine | of.reached_with(number, other))
        }
        found.update(o for o in min(lists, key=len, default=[]) if not left & ~of.touches[o])
        if of.all[number].rest and not self._seen.rest:
            found = {other for other in found if self._opens(other, number)}
        yield from sorted(
            other
            for other in found - {number}
            if is_changed[other] or not self._left[other] & ~mine
        )

    def _opens(self, number: int, closed: int) -> bool:
        """Whether one suspect can open all that another one closes at rest."""
        one, other = self._of.all[number], self._of.all[closed]
        return one.effect.what not in JOINS and can_open(one, other, wholly=True)

    def _tried(
        self, one: Suspect, left: int, other: Suspect, other_left: int
    ) -> Iterator[Explanation]:
        """Yield two effects, in an order in which they explain all, if they do.

        What each leaves unexplained by itself has to be something that the other one can change.
        """
        if not self._may_rest(one, other) or not self._may_rest(other, one):
            return
        if left & ~can_change(other, one) or other_left & ~can_change(one, other):
            return
        effects = (one.effect, other.effect)
        swaps = all(effect.what == "swapped" for effect in effects) and one.on & other.on
        if swaps and min(bits(one.on | other.on)) & ~swaps:
            return  # two exchanges of three wires are a rotation, whichever two of the three
        for ordered in (effects, effects[::-1]) if swaps else (effects,):
            if self._shows(*ordered, touched=one.reaches | other.reaches):
                yield Explanation(ordered)
                return

    def _may_rest(self, one: Suspect, other: Suspect) -> bool:
        """Whether what one suspect closes at rest may be seen so beside another one."""
        seen = self._seen.rest
        if not one.on & other.on:
            return one.rest | other.rest == seen
        return one.rest <= seen or can_open(other, one, wholly=not seen)

    def _shows(self, *effects: FaultEffect, touched: int) -> bool:
        netlist = netlist_with(self._of.board, *effects)
        if netlist.at_rest() != self._seen.rest:
            return False
        seen = self._seen.keys
        for these in (self._differs, touched & self._known & ~self._differs):
            for bit in bits(these):
                key = bit.bit_length() - 1
                if netlist.pressed(key) != seen[key]:
                    return False
        return are_possible(effects)
