"""More faults than two at once: each part of what was seen explained by itself.

Sets of faults grow by one fault at a time, the most promising ones first; a few of them are kept at
each step, those that leave least. So what is found explains what was seen, or as much of it as it
says, but there may be other ways to explain it.
"""

from __future__ import annotations

from matrixgen.bench.bits import bits_of, mask
from matrixgen.bench.effect import FaultEffect, are_possible
from matrixgen.bench.explanation import Explanation, Played
from matrixgen.bench.observe import Seen
from matrixgen.bench.suspects import Suspect, Suspects
from matrixgen.record import Record

MOST_TRIED = 30
"""Suspects that are tried with each set of faults, the most promising ones."""

MOST_KEPT = 6
"""Sets of faults that are kept at each step."""

MOST_FAULTS = 40
"""Faults that are put together at most."""


class PartlyExplained(Record):
    """Faults, and the keys that they leave unexplained; the number of keys stands for the rest."""

    explanation: Explanation
    left: tuple[int, ...]


def put_together(suspects: Suspects, seen: Seen) -> list[PartlyExplained]:
    """Return sets of faults that explain all, likely ones first; else the one that leaves least."""
    return _Growth(suspects, seen).result()


class _Set(Record):
    """Faults, and the keys that they leave, as bits."""

    effects: tuple[FaultEffect, ...]
    left: int

    @property
    def worth(self) -> tuple[int, int]:
        return self.left.bit_count(), sum(one.rarity for one in self.effects)


class _Growth:
    """Sets of faults that grow until one leaves nothing, or none gets better."""

    def __init__(self, suspects: Suspects, seen: Seen) -> None:
        self._of, self._seen = suspects, seen

    def result(self) -> list[PartlyExplained]:
        """Return what is found."""
        kept = [_Set((), self._left_by(()))]
        best = kept[0]
        for _ in range(MOST_FAULTS):
            grown = self._grown(kept)
            if not grown:
                break
            best = min([best, *grown], key=lambda one: one.worth)
            done = [one for one in grown if not one.left]
            if done:
                return [self._found(one) for one in sorted(done, key=lambda one: one.worth)]
            kept = grown[:MOST_KEPT]
        return [self._found(best)]

    def _found(self, one: _Set) -> PartlyExplained:
        needed = self._needed(one)
        return PartlyExplained(Explanation(needed.effects), tuple(bits_of(one.left)))

    def _grown(self, kept: list[_Set]) -> list[_Set]:
        """Return the sets of one fault more that leave less, the best ones first."""
        found: dict[frozenset[FaultEffect], _Set] = {}
        for one in kept:
            for suspect in self._promising(one.left):
                effects = (*one.effects, suspect.effect)
                name = frozenset(effects)
                if name in found or len(name) < len(effects):
                    continue
                left = self._left_by(effects)
                if left.bit_count() < one.left.bit_count() and are_possible(effects):
                    found[name] = _Set(effects, left)
        return sorted(found.values(), key=lambda one: one.worth)

    def _left_by(self, effects: tuple[FaultEffect, ...]) -> int:
        return mask(Played(self._of.board, Explanation(effects)).wrong_keys(self._seen))

    def _needed(self, one: _Set) -> _Set:
        """Return some faults without those that a later one made needless."""
        for effect in one.effects:
            others = tuple(other for other in one.effects if other is not effect)
            if not self._left_by(others) & ~one.left:
                return self._needed(_Set(others, one.left))
        return one

    def _promising(self, left: int) -> list[Suspect]:
        """Return the suspects that by themselves show most of what is left, and least besides."""
        gains = [(self._gain(one, left), one) for one in self._of.all if one.alters & left]
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
