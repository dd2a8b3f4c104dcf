"""More faults than two at once: each part of what was seen explained by itself.

Sets of faults grow by one fault at a time, the most promising ones first; a few of them are kept at
each step, those that leave least. So what is found explains what was seen, or as much of it as it
says, but there may be other ways to explain it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from matrixgen.bench.faults.effect import FaultEffect, are_possible
from matrixgen.bench.faults.explanation import Explanation, Played
from matrixgen.bench.faults.observe import Seen, places_with
from matrixgen.bench.faults.suspects import Suspect, Suspects
from matrixgen.circuit.bits import bits_of, mask
from matrixgen.record import Record

MOST_TRIED = 30
"""Suspects that are tried with each set of faults, the most promising ones."""

MOST_KEPT = 6
"""Sets of faults that are kept at each step."""

MOST_FAULTS = 40
"""Faults that are put together at most."""


class PartlyExplained(Record):
    """Faults, and the keys that they leave unexplained, as bits; one more bit is the rest.

    `distance` is in how many pairs what they show and what was seen differ.
    """

    explanation: Explanation
    left: int
    distance: int

    @property
    def leaves(self) -> tuple[int, tuple[int, int]]:
        """A key by which those that leave the fewest keys come first, and likely ones of them."""
        return self.left.bit_count(), self.explanation.rarity

    @property
    def worth(self) -> tuple[int, tuple[int, int]]:
        """A key by which those come first that are nearest to what was seen."""
        return self.distance, self.explanation.rarity


def put_together(suspects: Suspects, seen: Seen) -> list[PartlyExplained]:
    """Return sets of faults that explain all, likely ones first; else the one that leaves least."""
    return _Growth(suspects, seen).result()


class _Growth:
    """Sets of faults that grow until one leaves nothing, or none gets better."""

    def __init__(self, suspects: Suspects, seen: Seen) -> None:
        self._of, self._seen = suspects, seen

    def result(self) -> list[PartlyExplained]:
        """Return what is found."""
        kept = [self._with(Explanation(()))]
        best = kept[0]
        for _ in range(MOST_FAULTS):
            grown = self._grown(kept)
            if not grown:
                break
            best = min([best, *grown], key=lambda one: one.leaves)
            if not best.left:
                done = dict.fromkeys(self._needed(one) for one in grown if not one.left)
                return sorted(done, key=lambda one: one.worth)
            kept = grown[:MOST_KEPT]
        return [self._needed(best)]

    def _with(self, explanation: Explanation) -> PartlyExplained:
        played, seen = Played(self._of.board, explanation), self._seen
        off = {key: len(played.pressed([key]) ^ pairs) for key, pairs in seen.keys.items()}
        off[len(self._of.board.keys)] = len(played.rest ^ seen.rest)
        wrong = mask(key for key, pairs in off.items() if pairs)
        return PartlyExplained(explanation, wrong, sum(off.values()))

    def _grown(self, kept: list[PartlyExplained]) -> list[PartlyExplained]:
        """Return the sets of one fault more that leave less, the best ones first."""
        found: dict[Explanation, PartlyExplained] = {}
        for one in kept:
            for explanation in self._with_one_more(one):
                if explanation not in found:
                    grown = self._with(explanation)
                    if grown.distance < one.distance:
                        found[explanation] = grown
        return sorted(found.values(), key=lambda one: one.worth)

    def _with_one_more(self, one: PartlyExplained) -> Iterator[Explanation]:
        effects, exchanges = one.explanation.effects, one.explanation.exchanges
        halves = [half for effect in effects for half in self._of.halves_beside(effect)]
        for suspect in (*self._promising(one.left), *self._fixing(one), *halves):
            more = tuple(sorted({*effects, suspect.effect}, key=self._place))
            if len(more) > len(effects) and are_possible(more):
                yield Explanation(more, exchanges)
        played, seen = Played(self._of.board, one.explanation), self._seen.keys
        looks = {key: played.pressed([key]) for key in bits_of(one.left & ~self._of.at_rest)}
        for x, y in combinations(looks, 2):
            if seen[x] == looks[y] or seen[y] == looks[x]:
                yield Explanation(effects, (*exchanges, (x, y)))

    def _fixing(self, one: PartlyExplained) -> Iterator[Suspect]:
        """Yield the suspects that, beside some faults, make what is left first right."""
        seen, exchanges = self._seen, one.explanation.exchanges
        if one.left & self._of.at_rest:
            resting = (self._of.all[number] for number in self._of.resting)
            yield from (suspect for suspect in resting if suspect.rest & seen.rest)
        key = bits_of(one.left)[0]
        if key not in seen.keys:
            return
        place = places_with(self._of.board, exchanges)[key]
        for number in self._of.touching.get(1 << place, []):
            suspect = self._of.all[number]
            effects = (*one.explanation.effects, suspect.effect)
            with_it = Played(self._of.board, Explanation(effects, exchanges))
            if with_it.pressed([key]) == seen.keys[key]:
                yield suspect

    def _place(self, effect: FaultEffect) -> int:
        return self._of.number.get(effect, len(self._of.all))  # a half is none of them

    def _needed(self, one: PartlyExplained) -> PartlyExplained:
        """Return some faults without those that a later one made needless."""
        effects = one.explanation.effects
        for effect in effects:
            others = tuple(other for other in effects if other is not effect)
            fewer = self._with(Explanation(others, one.explanation.exchanges))
            if not fewer.left & ~one.left:
                return self._needed(fewer)
        return one

    def _promising(self, left: int) -> list[Suspect]:
        """Return the suspects that by themselves show most of what is left, and least besides."""
        rests = bool(left & self._of.at_rest)
        gains = [
            (self._gain(one, left), one)
            for one in self._of.all
            if one.alters & left or (rests and one.rest)
        ]
        gains = [pair for pair in gains if pair[0] > 0]
        gains.sort(key=lambda pair: (-pair[0], pair[1].effect.rarity))
        return [one for _, one in gains[:MOST_TRIED]]

    def _gain(self, one: Suspect, left: int) -> int:
        seen, gain = self._seen, 0
        if one.rest:
            is_seen = one.rest <= seen.rest
            gain += bool(left & self._of.at_rest) if is_seen else -len(self._of.board.keys)
        for key, pairs in one.looks.items():
            is_left = left >> key & 1
            if key in seen.keys and is_left == (seen.keys[key] == pairs):
                gain += 1 if is_left else -1
        return gain
