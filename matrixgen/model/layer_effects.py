"""What a press makes of the layers that presses have left on, whatever is held.

A set of layers is a number with bit n set for `keyboard.layers[n]`; the base layer's bit, 0, is
always set. Where keys have changed the base to layer n, bit `BASES` + n is set as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from matrixgen.model.actions import Action, LayerEnd, LayerTurn, with_parts
from matrixgen.record import Record

BASE_ALONE = 1
BASES = 64
"""Where the bits of changed bases begin: more than there can be layers."""

ALL = (1 << BASES) - 1


class LayersLeft(NamedTuple):
    """Sets of layers: `latched`, with the changed base; for the next key, pressed once or twice."""

    latched: int = BASE_ALONE
    once_again: int = 0
    once: int = 0

    @property
    def layers(self) -> int:
        """All of them."""
        return self.latched | self.once_again | self.once

    def after_typing(self) -> LayersLeft:
        """Return what is left once a key has typed."""
        return LayersLeft(self.latched, self.once_again)


class Effect(Record, kw_only=True):
    """An action, its parts aside, as sets of layers: what it turns on, and what off.

    `latches` are turned on where they are off, `lays` become the base, `once` are for the next key,
    and `held` are on as long as the key is down. `ends` has latched layers and bases.
    """

    held: int
    latches: int
    lays: int
    once: int
    ends: int
    ends_once: int

    def pressed(self, left: LayersLeft) -> LayersLeft:
        """Return what is left on after a press; what it ends, it does not turn on again."""
        latched = left.latched & ~self.ends | self.latches & ~left.latched | self.lays
        once_again, once = left.once_again & ~self.ends_once, left.once & ~self.ends_once
        if self.once & left.once:  # pressed twice
            once_again |= self.once
        elif not self.once & left.once_again:
            once |= self.once
        return LayersLeft(latched, once_again, once)


def effects_of(action: Action, number_of: Mapping[str, int]) -> Iterator[Effect]:
    """Yield what an action and each part of it do to layers, which have these numbers."""
    for part in with_parts(action):
        on, off = part.turns_on, part.turns_off
        if on or off:
            lays = _turned(on, number_of, "for good")
            yield Effect(
                held=_turned(on, number_of, "while down", "for the next key"),
                latches=_turned(on, number_of, "until pressed again"),
                lays=(lays & ~BASE_ALONE) << BASES,
                once=_turned(on, number_of, "for the next key"),
                ends=_ended(off, number_of, "until pressed again") & ~BASE_ALONE
                | _ended(off, number_of, "for good") << BASES,
                ends_once=_ended(off, number_of, "for the next key"),
            )


def _turned(turns: Iterable[LayerTurn], number_of: Mapping[str, int], *lasts: str) -> int:
    """Return the layers that are turned on for as long as one of these."""
    return sum({1 << number_of[turn.layer] for turn in turns if turn.lasts in lasts})


def _ended(ends: Iterable[LayerEnd], number_of: Mapping[str, int], lasts: str) -> int:
    names = {end.layer for end in ends if end.lasts == lasts}
    return ALL if None in names else sum(1 << number_of[name] for name in names if name)
