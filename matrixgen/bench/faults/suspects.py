"""Every effect of one fault on a board, and what each would change of what the bench sees."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import MOVES_LEADS, EffectKind, FaultEffect
from matrixgen.bench.faults.effects_of import effects_of, halves_of
from matrixgen.bench.faults.netlist import NONE, Netlist, Pairs
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.circuit.bits import bits, bits_of, mask
from matrixgen.record import Record

EDGES: frozenset[EffectKind] = frozenset({"closed", "middle", "middles"})
"""What makes a key conduct while it is not pressed, so that every key on its lines shows it."""

LINKS: frozenset[EffectKind] = EDGES | {
    "leg", "piece", "moved", "swapped", "joined", "bridged", "grounded",
}  # fmt: skip
"""What makes something show what is done to another line, or to a pin."""

CHANGES: frozenset[EffectKind] = EDGES | {
    "off", "moved", "swapped", "joined", "bridged", "grounded",
}  # fmt: skip
"""What changes whatever else is on its lines."""

JOINS: frozenset[EffectKind] = EDGES | {"joined", "bridged", "grounded"}
"""What only ever closes something, also while no key is pressed."""


class Suspect(Record, kw_only=True):
    """An effect by itself. Sets of keys are bits by their places.

    `touches` are the keys that may look otherwise for it, `reaches` those that may if its own keys
    conduct while they are not pressed, `alters`
    those that do while it is alone, `rest` what is closed at rest then, between `rest_pins`, and
    `looks` what the altered keys close; `on` has the bits of its lines and pins.
    """

    effect: FaultEffect
    touches: int
    reaches: int
    alters: int
    on: int
    rest: Pairs
    rest_pins: int
    looks: dict[int, Pairs]

    @property
    def changes(self) -> bool:
        """Whether it changes whatever else is on its lines."""
        what = self.effect.what
        return what in CHANGES and (what not in EDGES or bool(self.rest))


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
        return [self.suspect(effect) for effect in effects_of(self.board)]

    @cached_property
    def number(self) -> dict[FaultEffect, int]:
        """The place of each effect among them."""
        return {one.effect: number for number, one in enumerate(self.all)}

    @cached_property
    def touching(self) -> dict[int, list[int]]:
        """The numbers of the suspects that touch a key, by its bit."""
        found: dict[int, list[int]] = {}
        for number, one in enumerate(self.all):
            for bit in bits(one.touches):
                found.setdefault(bit, []).append(number)
        return found

    @cached_property
    def touches(self) -> list[int]:
        """The keys that each suspect touches, as bits."""
        return [one.touches for one in self.all]

    def reached_with(self, number: int, other: int) -> int:
        """Return the keys that a suspect touches, also by what another one lets conduct."""
        two = self.all[other]
        return two.reaches if self.all[number].effect.what in EDGES else two.touches

    def changed_by(self, number: int) -> Sequence[bool]:
        """Return, for each suspect, whether one can change more of it than it touches itself."""
        one = self.all[number]
        if one.effect.what in EDGES:
            return [True] * len(self.all)
        return self._links if one.changes else self._edges

    @cached_property
    def _links(self) -> list[bool]:
        return [one.effect.what in LINKS for one in self.all]

    @cached_property
    def _edges(self) -> list[bool]:
        return [one.effect.what in EDGES for one in self.all]

    @cached_property
    def resting(self) -> list[int]:
        """The numbers of the suspects that may close something while no key is pressed."""
        return [number for number, one in enumerate(self.all) if one.effect.what in JOINS]

    def changing(self, number: int) -> list[int]:
        """Return the numbers of the suspects that can change more of a suspect than they touch."""
        one = self.all[number]
        if one.effect.what not in LINKS:
            return []
        lists = [self._changers.get(place, []) for place in {*one.effect.lines, *one.effect.pins}]
        if one.effect.what in EDGES:
            lists += [self._of_key.get(key, []) for key in one.effect.keys]
        return list(dict.fromkeys(other for these in lists for other in these))

    @cached_property
    def _changers(self) -> dict[int, list[int]]:
        found: dict[int, list[int]] = {}
        for number, one in enumerate(self.all):
            if one.changes:
                for place in {*one.effect.lines, *one.effect.pins}:
                    found.setdefault(place, []).append(number)
        return found

    @cached_property
    def _of_key(self) -> dict[int, list[int]]:
        found: dict[int, list[int]] = {}
        for number, one in enumerate(self.all):
            if one.effect.what in EDGES or one.effect.what not in CHANGES:
                for key in one.effect.keys:
                    found.setdefault(key, []).append(number)
        return found

    def halves_beside(self, effect: FaultEffect) -> list[Suspect]:
        """Return the suspects only worth a look beside an effect: open halves of its keys."""
        if effect.what not in ("middle", "middles"):
            return []
        return [
            self.suspect(half)
            for key in effect.keys
            for half in halves_of(self.board, key, effect.side)
        ]

    @cached_property
    def on_line(self) -> list[int]:
        """The keys of each line, as bits."""
        return [mask(keys) for keys in self.board.visits]

    def suspect(self, effect: FaultEffect) -> Suspect:
        """Return what an effect changes by itself."""
        netlist = netlist_with(self.board, effect)
        keys = wide = mask(effect.keys)
        for line in effect.lines:
            wide |= self.on_line[line]
        rest = netlist.at_rest() if effect.what in JOINS else NONE
        touches = wide if rest and effect.what in EDGES else keys
        looks = {key: netlist.pressed(key) for key in bits_of(touches)}
        looks = {key: pairs for key, pairs in looks.items() if pairs != self.healthy[key]}
        return Suspect(
            effect=effect,
            touches=touches,
            reaches=wide,
            alters=mask(looks),
            on=mask(effect.lines) | mask(effect.pins),
            rest=rest,
            rest_pins=mask(pin for pair in rest for pin in pair) or mask(effect.lines),
            looks=looks,
        )


def can_change(one: Suspect, other: Suspect) -> int:
    """Return the keys at which one suspect may change what another one shows."""
    if share_keys(one, other):
        return one.reaches | other.reaches
    if one.on & other.on and one.changes and other.effect.what in LINKS:
        return one.touches | other.touches
    return one.touches


def share_keys(one: Suspect, other: Suspect) -> bool:
    """Whether both are of one key that one of them lets conduct while it is not pressed."""
    kinds = {one.effect.what, other.effect.what}
    return not kinds.isdisjoint(EDGES) and not set(one.effect.keys).isdisjoint(other.effect.keys)


def can_open(one: Suspect, other: Suspect, *, wholly: bool) -> bool:
    """Whether one suspect can open what another one closes at rest, or put it on other pins."""
    effect = one.effect
    if effect.what in JOINS:
        return False
    if effect.what in MOVES_LEADS:
        if wholly and effect.what == "moved":
            return {*effect.lines, *effect.pins} <= {*other.effect.lines, *other.effect.pins}
        return bool(one.on & other.on) and not (wholly and effect.what == "swapped")
    if wholly and effect.what in ("leg", "piece") and effect.lines[1] not in other.effect.lines:
        return False
    return share_keys(one, other)
