"""A set of faults that explains what the bench saw, and what it would show of any other press."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import FaultEffect
from matrixgen.bench.faults.netlist import Netlist, Pairs
from matrixgen.bench.faults.observe import Exchange, Seen, netlist_with, places_with
from matrixgen.record import Record


class Explanation(Record):
    """Effects that explain what was seen, and keys that sit at each other's place."""

    effects: tuple[FaultEffect, ...]
    exchanges: tuple[Exchange, ...] = ()

    @property
    def size(self) -> int:
        """How many faults it takes."""
        return len(self.effects) + len(self.exchanges)

    @cached_property
    def rarity(self) -> tuple[int, int]:
        """A key by which likely explanations come first: few faults, and of common kinds."""
        return self.size, sum(one.rarity for one in self.effects) + 2 * len(self.exchanges)


class Played(Record):
    """An explanation put into the netlist of a board, to be played there."""

    board: Board
    explanation: Explanation

    @cached_property
    def netlist(self) -> Netlist:
        """The netlist with its effects."""
        return netlist_with(self.board, *self.explanation.effects)

    @cached_property
    def _place_of(self) -> list[int]:
        return places_with(self.board, self.explanation.exchanges)

    @property
    def rest(self) -> Pairs:
        """What is closed while no key is pressed."""
        return self.netlist.at_rest()

    def pressed(self, keys: Sequence[int]) -> Pairs:
        """Return what closes when some keys are held down together."""
        return self.netlist.pressed(*(self._place_of[key] for key in keys))

    def wrong_keys(self, seen: Seen) -> tuple[int, ...]:
        """Return the keys that do not look as seen; the number of keys stands for the rest."""
        wrong = [key for key, pairs in seen.keys.items() if self.pressed([key]) != pairs]
        return (*sorted(wrong), *([len(self.board.keys)] if self.rest != seen.rest else []))
