"""What faults do to a netlist. Faults that do the same to it cannot be told apart by any key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from typing import Literal

from matrixgen.bench.faults.fault import RARITY, Fault, KeyHalf, can_be_at_once
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.model import Diode
from matrixgen.record import Record

EffectKind = Literal[
    "open", "half open", "diode", "closed", "leg", "middle", "middles", "cut", "piece", "off",
    "moved", "swapped", "joined", "bridged", "grounded",
]  # fmt: skip

MOVES_LEADS: frozenset[EffectKind] = frozenset({"off", "moved", "swapped"})
ORDER: tuple[frozenset[EffectKind], ...] = (MOVES_LEADS, frozenset({"cut", "piece"}))
"""What is put into a netlist before all else: a piece of a wire falls off before a leg is moved."""


class FaultEffect(Record, kw_only=True):
    """One change to a netlist, and the faults that make it.

    `keys` are those that it is done to, and `lines` those that it is on; `pins` are the pins that
    it has to do with besides. `side` is that of the ends, or of the diodes, that it is about;
    `diode` is what a key has then.
    """

    what: EffectKind
    faults: tuple[Fault, ...]
    lines: tuple[int, ...]
    keys: tuple[int, ...]
    pins: tuple[int, ...] = ()
    side: KeyHalf = "drive"
    diode: Diode = "none"

    @property
    def rarity(self) -> int:
        """How rare its least rare fault is."""
        return min(RARITY[fault.kind] for fault in self.faults)

    def put_into(self, netlist: Netlist) -> None:
        """Change a netlist as this does."""
        match self.what:
            case "open":
                netlist.open.add(self.keys[0])
            case "half open":
                netlist.half_open.add((self.keys[0], self.side))
            case "diode":
                netlist.diode[self.keys[0]] = self.diode
            case "closed":
                netlist.closed.add(self.keys[0])
            case "cut":
                netlist.cut(self.side, self.keys)
            case "leg" | "piece":
                for key in self.keys:
                    netlist.ends_on(self.side)[key] = self.lines[1]
            case "off" | "moved" | "swapped":
                self._move_leads(netlist)
            case _:
                self._join(netlist)

    def _move_leads(self, netlist: Netlist) -> None:
        leads, first = netlist.leads, self.lines[0]
        if self.what == "swapped":
            other = self.lines[1]
            leads[first], leads[other] = leads[other], leads[first]
        else:
            leads[first] = self.pins[0] if self.what == "moved" else None

    def _join(self, netlist: Netlist) -> None:
        nodes = [*self.lines]
        if self.what == "bridged":
            nodes = [netlist.pin_node(pin) for pin in self.pins]
        elif self.what == "grounded":
            nodes.append(netlist.ground)
        elif self.what in ("middle", "middles"):
            netlist.middles.update((key, self.side) for key in self.keys)
            middles = [netlist.middle_node(key) for key in self.keys]
            nodes = middles if self.what == "middles" else [self.lines[-1], *middles]
        netlist.joined.append((nodes[0], nodes[1]))


def in_order(effects: Iterable[FaultEffect]) -> list[FaultEffect]:
    """Return effects in the order in which they are put into a netlist."""
    return sorted(effects, key=_turn)


def _turn(effect: FaultEffect) -> tuple[int, int]:
    turn = next((n for n, these in enumerate(ORDER) if effect.what in these), len(ORDER))
    return turn, -len(effect.keys) if turn == 1 else 0


def worlds_of(effects: Sequence[FaultEffect]) -> Iterator[tuple[Fault, ...]]:
    """Yield the faults that may be behind some effects, one of each, that one board can have."""
    for faults in product(*(effect.faults for effect in effects)):
        if can_be_at_once(faults):
            yield faults


def are_possible(effects: Sequence[FaultEffect]) -> bool:
    """Whether one board can have some effects.

    A key whose middle touches something is open on one half of it, or on the other.
    """
    opened = {effect.keys[0] for effect in effects if effect.what == "open"}
    touch = {key for one in effects if one.what in ("middle", "middles") for key in one.keys}
    return opened.isdisjoint(touch) and next(worlds_of(effects), None) is not None
