"""A fault: its kind, its place, and what to look at."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from typing import Literal

from matrixgen.model import Diode
from matrixgen.record import Record

FaultKind = Literal[
    "joint",
    "hop",
    "lead",
    "diode missing",
    "diode turned",
    "diode shorted",
    "diode extra",
    "switch dead",
    "switch closed",
    "leg on another wire",
    "lines shorted",
    "lines swapped",
    "lead on another pin",
    "lead on a taken pin",
    "piece touches",
    "middle touches wire",
    "middles touch",
    "pins shorted",
    "line on ground",
    "keys exchanged",
]

KeyHalf = Literal["drive", "sense"]
"""The wires that one half of a key is on: its switch, or its diode."""

RARITY: dict[FaultKind, int] = {
    "joint": 1,
    "hop": 1,
    "lead": 1,
    "diode turned": 1,
    "leg on another wire": 1,
    "lines swapped": 1,
    "diode missing": 2,
    "lead on another pin": 2,
    "lead on a taken pin": 2,
    "lines shorted": 2,
    "keys exchanged": 2,
    "pins shorted": 3,
    "diode shorted": 3,
    "diode extra": 3,
    "switch closed": 3,
    "piece touches": 3,
    "middle touches wire": 3,
    "middles touch": 3,
    "switch dead": 4,
    "line on ground": 4,
}
"""How rare each kind is beside the others, to sort verdicts by (common practice, no source)."""


class Fault(Record, kw_only=True):
    """One fault. `keys`, `lines` and `pins` name its place, as its kind has them.

    A hop lies between two `keys` on one of `lines`; the second one is on the piece that is cut off.
    Of a diode, `band` says where its band should point, and `diode` what the key now has. `first`
    is the wire whose controller wire must be at its first key for this to look so, `last` that
    where it must be at the last one, and `side` the wires that diodes must then be soldered to.
    """

    kind: FaultKind
    keys: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    pins: tuple[str, ...] = ()
    band: str = ""
    diode: Diode | None = None
    first: str = ""
    last: str = ""
    side: KeyHalf | None = None

    @property
    def names(self) -> list[str]:
        """What its place is called: keys, then lines, then pins."""
        return [*self.keys, *self.lines, *self.pins]

    @property
    def parts(self) -> frozenset[tuple[str, ...]]:
        """The joints, wires and parts that are not as they should be: each is so in one way."""
        match self.kind:
            case "joint" | "leg on another wire":
                return frozenset([("leg", self.keys[0], self.lines[0])])
            case "hop" | "piece touches":
                return frozenset([("hop", self.lines[0], *sorted(self.keys))])
            case "lead" | "lead on another pin" | "lead on a taken pin":
                return frozenset([("lead", self.lines[0])])
            case "lines swapped":
                return frozenset(("lead", line) for line in self.lines)
            case "diode missing" | "diode turned" | "diode shorted" | "diode extra":
                return frozenset([("diode", self.keys[0])])
            case "switch dead" | "switch closed":
                return frozenset([("switch", self.keys[0])])
            case _:
                return frozenset()


def can_be_at_once(faults: Iterable[Fault]) -> bool:
    """Whether one board can have some faults: no part two, and each wire its pin at one end.

    Two wires on the pin of each other are swapped, which is one fault.
    """
    every = tuple(faults)
    first, last = {one.first for one in every}, {one.last for one in every}
    if (first & last) - {""} or len({one.side for one in every if one.side}) > 1:
        return False
    return all(_agree(one, other) for one, other in combinations(every, 2))


def _agree(one: Fault, other: Fault) -> bool:
    kinds = {one.kind, other.kind}
    if kinds == {"lines swapped"}:
        return one.lines != other.lines
    if kinds == {"lead on a taken pin"} and one.lines == other.lines[::-1]:
        return False
    return one.parts.isdisjoint(other.parts)
