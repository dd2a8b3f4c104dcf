"""A soldered keyboard on the bench: what the bench firmware would print for any keys held down.

Written from the page of the bench firmware (`templates/firmware/bench/README.md`) and from what
metal does, and not from the product's model of faults, with which it shares no code: every pad,
controller wire, joint, piece of wire, leg, diode and switch is a node or an edge, and so is the
joint between a diode and its switch. A slip of the iron changes the graph (`slips.py`).

While a pin is pulled low, another one reads low if current can get from its pad to the pulled one,
or to ground: along metal either way, through a diode toward its band.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal

from matrixgen.boards import Mounted
from matrixgen.model import matrix_of

Node = tuple[str, ...]
Side = Literal["drive", "sense"]
GROUND: Node = ("ground",)


@dataclass(frozen=True)
class Wire:
    """A row or a column: its pin, and the keys that it visits in the order of soldering."""

    name: str
    pin: str
    keys: tuple[str, ...]


@dataclass(frozen=True)
class Plan:
    """What the file says. `ends` are the driven and the sensed wire of each key."""

    wires: dict[str, Wire]
    pins: tuple[str, ...]
    ends: dict[str, tuple[str, str]]
    diodes: dict[str, str]

    @property
    def spare(self) -> list[str]:
        return [pin for pin in self.pins if pin not in {one.pin for one in self.wires.values()}]


def plan_of(mounted: Mounted, pins: Collection[str] | None = None) -> Plan:
    """What a file says of its keyboard; `pins` are those that the bench reads."""
    matrix = matrix_of(mounted.keyboard)
    lines = [*matrix.drives, *matrix.senses]
    on = {line.name.text: mounted.pin_of(line).name for line in lines}
    known = pins or [pin.name for pin in mounted.profile.usable_pins]
    wires = {
        line.name.text: Wire(
            line.name.text, on[line.name.text], tuple(word.text for word in line.visits)
        )
        for line in lines
    }
    ends = {
        one.key: (matrix.drives[one.drive].name.text, matrix.senses[one.sense].name.text)
        for one in matrix.contacts
    }
    # The bench of a keyboard leaves the pins of its lights and knobs alone.
    words = [word for pins in mounted.mounting.component_pins.values() for word in pins]
    left_alone = {pin.name for word in words if (pin := mounted.profile.pin(word.text))}
    spare = tuple(pin for pin in known if pin not in {*on.values(), *left_alone})
    diodes = {one.key: one.diode for one in matrix.contacts}
    return Plan(wires, (*on.values(), *spare), ends, diodes)


@dataclass(frozen=True)
class Made:
    """What no file says: wires whose controller wire is at their last key, and not at their first,
    and the side of each switch on which its diode is."""

    last: frozenset[str] = frozenset()
    side: Side = "drive"


class Soldered:
    """A keyboard as it was soldered; slips change it by the verbs below."""

    def __init__(self, plan: Plan, made: Made) -> None:
        self.plan, self.made = plan, made
        self.metal: dict[Node, set[Node]] = defaultdict(set)
        self.diode = dict(plan.diodes)
        self.stuck: set[str] = set()
        self.dead: set[str] = set()
        self.lead_pin: dict[str, str] = {}
        for wire in plan.wires.values():
            self._string(wire)
        for key in plan.ends:
            self.solder(("middle", key), ("diode", key))

    def _string(self, wire: Wire) -> None:
        for one, other in pairwise(wire.keys):
            self.solder(("wire", wire.name, one), ("wire", wire.name, other))
        for key in wire.keys:
            self.solder(("wire", wire.name, key), self.leg(key, wire.name))
        at = wire.keys[-1 if wire.name in self.made.last else 0]
        self.solder(self.lead(wire.name), ("wire", wire.name, at))
        self.put_lead(wire.name, wire.pin)

    def lead(self, wire: str) -> Node:
        return ("lead", wire)

    def leg(self, key: str, wire: str) -> Node:
        """The end of a key, switch or diode, that the plan has on a wire."""
        return ("leg", key, "drive" if self.plan.ends[key][0] == wire else "sense")

    def solder(self, one: Node, other: Node) -> None:
        self.metal[one].add(other)
        self.metal[other].add(one)

    def part(self, one: Node, other: Node) -> None:
        self.metal[one].discard(other)
        self.metal[other].discard(one)

    def put_lead(self, wire: str, pin: str | None) -> None:
        """Solder a controller wire to a pin, or to none."""
        if wire in self.lead_pin:
            self.part(self.lead(wire), ("pad", self.lead_pin.pop(wire)))
        if pin is not None:
            self.solder(self.lead(wire), ("pad", pin))
            self.lead_pin[wire] = pin

    @property
    def state(self) -> object:
        """All of it, to be compared with another board."""
        metal = frozenset((one, other) for one, others in self.metal.items() for other in others)
        parts = frozenset(self.diode.items())
        return metal, parts, frozenset(self.stuck), frozenset(self.dead), self.made

    @cached_property
    def _pieces(self) -> dict[Node, int]:
        """Which piece of metal each node is of, while no switch is closed."""
        found: dict[Node, int] = {}
        nodes = [*self.metal, *(node for key in self.plan.ends for node in self._of_key(key))]
        for number, start in enumerate(nodes):
            waiting = [] if start in found else [start]
            while waiting:
                node = waiting.pop()
                if node not in found:
                    found[node] = number
                    waiting += self.metal.get(node, ())
        return found

    def _of_key(self, key: str) -> list[Node]:
        ends: list[Node] = [("leg", key, "drive"), ("leg", key, "sense")]
        return [*ends, ("middle", key), ("diode", key)]

    def _ways(self, pressed: Iterable[str]) -> Iterator[tuple[Node, Node]]:
        """The ways that current can go besides along metal."""
        for key, kind in self.diode.items():
            leg: Node = ("leg", key, self.made.side)
            middle: Node = ("diode", key)
            drive, sense = (leg, middle) if self.made.side == "drive" else (middle, leg)
            if kind in ("toward", "none"):
                yield sense, drive
            if kind in ("away", "none"):
                yield drive, sense
        for key in {*pressed, *self.stuck} - self.dead:
            leg = ("leg", key, "sense" if self.made.side == "drive" else "drive")
            yield leg, ("middle", key)
            yield ("middle", key), leg

    def pairs(self, pressed: Iterable[str] = ()) -> frozenset[tuple[str, str]]:
        """The pins that are pulled low, each with one that reads low then."""
        piece, onward = self._pieces, defaultdict(set)
        for one, other in self._ways(pressed):
            onward[piece[one]].add(piece[other])
        pads = {pin: piece.get(("pad", pin), pin) for pin in self.plan.pins}
        ground = piece.get(GROUND)
        found = set()
        for read, start in pads.items():
            reached = _reached(onward, start)
            for low, pad in pads.items():
                if low != read and (pad in reached or ground in reached):
                    found.add((low, read))
        return frozenset(found)

    def beeps(self, one: Node, other: Node) -> bool:
        """Whether a meter beeps between two nodes of the unplugged keyboard: along metal alone."""
        piece = self._pieces
        return one in piece and other in piece and piece[one] == piece[other]

    def prints(self, pressed: Iterable[str] = ()) -> list[str]:
        """The lines of all that is closed, as the bench firmware prints them."""
        order = {pin: number for number, pin in enumerate(self.plan.pins)}
        pairs = sorted(self.pairs(pressed), key=lambda pair: (order[pair[0]], order[pair[1]]))
        return [f"{low} > {read} closed" for low, read in pairs]


def _reached(onward: dict, start: object) -> set:
    reached, waiting = {start}, [start]
    while waiting:
        new = onward.get(waiting.pop(), set()) - reached
        reached |= new
        waiting += new
    return reached
