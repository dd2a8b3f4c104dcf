"""Every effect of one fault on a board, and what each would change of what the bench sees."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from matrixgen.bench.board import Board
from matrixgen.bench.effect import BREAKS, JOINS, FaultEffect, effects_of
from matrixgen.bench.netlist import NONE, Netlist, Pairs
from matrixgen.bench.observe import netlist_with
from matrixgen.record import Record


class Suspect(Record, kw_only=True):
    """An effect by itself. Sets of keys are bits by their places; one more bit is the rest state.

    `touches` are the keys that may look otherwise for it, `alters` those that do while it is alone,
    `rest` what is closed at rest then and `looks` what the altered keys close; `on` has the bits of
    its lines.
    """

    effect: FaultEffect
    touches: int
    alters: int
    on: int
    rest: Pairs
    looks: dict[int, Pairs]


class Suspects(Record):
    """All suspects of a board, and what the bench sees of it while it is whole."""

    board: Board

    @cached_property
    def healthy(self) -> list[Pairs]:
        """What each key closes."""
        netlist = Netlist(self.board)
        return [netlist.pressed(key) for key in range(len(self.board.keys))]

    @cached_property
    def at_rest(self) -> int:
        """The bit of the state at rest."""
        return 1 << len(self.board.keys)

    @cached_property
    def all(self) -> list[Suspect]:
        """Each suspect."""
        return [self._suspect(effect) for effect in effects_of(self.board)]

    @cached_property
    def touching(self) -> dict[int, list[int]]:
        """The numbers of the suspects that touch a key, or alter the state at rest, by its bit."""
        found: dict[int, list[int]] = {}
        for number, one in enumerate(self.all):
            for bit in bits((one.touches & ~self.at_rest) | (one.alters & self.at_rest)):
                found.setdefault(bit, []).append(number)
        return found

    @cached_property
    def acting_on(self) -> dict[int, list[int]]:
        """For each suspect, the numbers of those that change what it does, and not just add to it.

        Those are changes to whole lines that have a line in common, and what befalls a key that is
        always closed.
        """
        on_line: dict[int, set[int]] = {}
        for number, one in enumerate(self.all):
            for line in one.effect.lines:
                on_line.setdefault(line, set()).add(number)
        return {
            number: sorted(
                other
                for other in set().union(*(on_line[line] for line in one.effect.lines))
                if act_on_each_other(one.effect, self.all[other].effect)
            )
            for number, one in enumerate(self.all)
        }

    def _suspect(self, effect: FaultEffect) -> Suspect:
        netlist = netlist_with(self.board, effect)
        looks = {key: netlist.pressed(key) for key in effect.keys}
        looks = {key: pairs for key, pairs in looks.items() if pairs != self.healthy[key]}
        rest = netlist.at_rest() if effect.what in JOINS else NONE
        return Suspect(
            effect=effect,
            touches=mask(effect.keys) | (self.at_rest if effect.mixes else 0),
            alters=mask(looks) | (self.at_rest if rest else 0),
            on=mask(effect.lines),
            rest=rest,
            looks=looks,
        )


def act_on_each_other(one: FaultEffect, other: FaultEffect) -> bool:
    """Whether two effects that have a line in common may do other things than both alone."""
    return (one.mixes and other.mixes) or "closed" in (one.what, other.what)


def can_end(one: FaultEffect) -> bool:
    """Whether an effect can open what another one closes at rest."""
    return one.what in BREAKS


def mask(places: Iterable[int]) -> int:
    """Return numbers as bits."""
    found = 0
    for place in places:
        found |= 1 << place
    return found


def bits(of: int) -> Iterator[int]:
    """Yield each bit of a number that is set, the lowest first."""
    while of:
        lowest = of & -of
        yield lowest
        of ^= lowest
