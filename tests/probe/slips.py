"""Slips of the iron and broken parts: each one's place, and what it does to a soldered keyboard.

A slip's `at` names its place: keys, wires and pins in the order that its kind takes them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from tests.probe.soldered import GROUND, Made, Plan, Side, Soldered


@dataclass(frozen=True)
class Slip:
    """`last` is the wire whose controller wire has to be at its last key, `first` at its first;
    `side` is where the diodes have to be; empty where it makes no difference."""

    kind: str
    at: tuple[str, ...]
    first: str = ""
    last: str = ""
    side: Side | None = None


def piece_of(board: Soldered, wire: str, near: str, loose: str) -> None:
    board.part(("wire", wire, near), ("wire", wire, loose))


def joint(board: Soldered, key: str, wire: str) -> None:
    board.part(("wire", wire, key), board.leg(key, wire))


def hop(board: Soldered, wire: str, near: str, loose: str) -> None:
    piece_of(board, wire, near, loose)


def lead(board: Soldered, wire: str) -> None:
    board.put_lead(wire, None)


def middle_open(board: Soldered, key: str) -> None:
    board.part(("middle", key), ("diode", key))


def diode_open(board: Soldered, key: str) -> None:
    board.diode[key] = "open"


def diode_turned(board: Soldered, key: str) -> None:
    board.diode[key] = {"toward": "away", "away": "toward"}[board.diode[key]]


def diode_shorted(board: Soldered, key: str) -> None:
    board.diode[key] = "none"


def diode_extra(board: Soldered, key: str, way: str) -> None:
    board.diode[key] = way


def switch_dead(board: Soldered, key: str) -> None:
    board.dead.add(key)


def switch_stuck(board: Soldered, key: str) -> None:
    board.stuck.add(key)


def wires_touch(board: Soldered, one: str, other: str) -> None:
    board.solder(board.lead(one), board.lead(other))


def pads_bridged(board: Soldered, one: str, other: str) -> None:
    board.solder(("pad", one), ("pad", other))


def on_ground(board: Soldered, wire: str) -> None:
    board.solder(board.lead(wire), GROUND)


def leg_elsewhere(board: Soldered, key: str, own: str, other: str) -> None:
    joint(board, key, own)
    board.solder(board.leg(key, own), board.lead(other))


def lead_on_spare_pin(board: Soldered, wire: str, pin: str) -> None:
    board.put_lead(wire, pin)


def lead_on_taken_pin(board: Soldered, wire: str, other: str) -> None:
    board.put_lead(wire, board.plan.wires[other].pin)


def leads_on_one_pin(board: Soldered, one: str, other: str, pin: str) -> None:
    board.put_lead(one, pin)
    board.put_lead(other, pin)


def leads_exchanged(board: Soldered, one: str, other: str) -> None:
    pins = [board.lead_pin.get(wire) for wire in (other, one)]
    board.put_lead(one, None)
    board.put_lead(other, None)
    for wire, pin in zip((one, other), pins, strict=True):
        board.put_lead(wire, pin)


def piece_touches(board: Soldered, wire: str, near: str, loose: str, other: str) -> None:
    piece_of(board, wire, near, loose)
    board.solder(("wire", wire, loose), board.lead(other))


def middle_touches(board: Soldered, key: str, wire: str) -> None:
    board.solder(("middle", key), board.lead(wire))


def middles_touch(board: Soldered, one: str, other: str) -> None:
    board.solder(("middle", one), ("middle", other))


KINDS: dict[str, Callable[..., None]] = {
    one.__name__.replace("_", " "): one
    for one in (
        *(joint, hop, lead, middle_open, diode_open, diode_turned, diode_shorted, diode_extra),
        *(switch_dead, switch_stuck, wires_touch, pads_bridged, on_ground, leg_elsewhere),
        *(lead_on_spare_pin, lead_on_taken_pin, leads_on_one_pin, leads_exchanged, piece_touches),
        *(middle_touches, middles_touch),
    )
}
EXCHANGED = "keys exchanged"
"""Two keys that sit at each other's place: nothing of the metal, but of what they are called."""


def soldered(plan: Plan, made: Made, slips: Iterable[Slip]) -> Soldered:
    """Return a board with some slips; whole pieces fall off before anything is moved."""
    board = Soldered(plan, made)
    for slip in slips:
        if slip.kind != EXCHANGED:
            KINDS[slip.kind](board, *slip.at)
    return board


def place_of(plan: Plan, slips: Iterable[Slip]) -> dict[str, str]:
    """Return the place at which each key is."""
    places = {key: key for key in plan.ends}
    for slip in slips:
        if slip.kind == EXCHANGED:
            one, other = slip.at
            places[one], places[other] = places[other], places[one]
    return places


def made_for(slips: Iterable[Slip]) -> Made | None:
    """Return how a board has to be made for some slips; None where no board is."""
    every = list(slips)
    first, last = {one.first for one in every}, {one.last for one in every}
    sides = {one.side for one in every if one.side}
    if (first & last) - {""} or len(sides) > 1:
        return None
    return Made(frozenset(last - {""}), next(iter(sides), "drive"))


def things_of(slip: Slip) -> set[tuple[str, ...]]:
    """Return what a slip is of: nothing can have two slips at once."""
    at = slip.at
    match slip.kind:
        case "joint" | "leg elsewhere":
            return {("joint", *at[:2])}
        case "hop" | "piece touches":
            return {("hop", at[0], *sorted(at[1:3]))}
        case "leads exchanged":
            return {("lead", one) for one in at}
        case "leads on one pin":
            return {("lead", one) for one in at[:2]}
        case "lead" | "lead on spare pin" | "lead on taken pin":
            return {("lead", at[0])}
        case "middle open" | "diode open" | "diode turned" | "diode shorted" | "diode extra":
            return {("diode", at[0])}
        case "switch dead" | "switch stuck":
            return {("switch", at[0])}
    return {(slip.kind, *at)}


TWICE = {"leads exchanged", EXCHANGED}
"""What can happen to one thing twice: an exchange, and another one."""


def sets_of_slips(plan: Plan, slips: Iterable[Slip]) -> Iterator[tuple[Slip, ...]]:
    """Yield every set of one slip or two that one board can have, in the order they happen in.

    Two exchanges of three things are one rotation, whichever two of the three they are.
    """
    every = [one for one in slips if one.kind != "leads on one pin"]
    order = {name: number for number, name in enumerate([*plan.wires, *plan.ends])}
    yield from ((one,) for one in every)
    for one, other in combinations(every, 2):
        shared = things_of(one) & things_of(other) or {*one.at} & {*other.at}
        if one.kind == other.kind and one.kind in TWICE and shared:
            least = min({*one.at, *other.at}, key=order.__getitem__)
            if least in one.at and least in other.at:
                yield one, other
                yield other, one
        elif things_of(one).isdisjoint(things_of(other)) and made_for((one, other)):
            yield one, other


def every_slip(plan: Plan, neighbours: Iterable[tuple[str, str]]) -> Iterator[Slip]:
    """Yield every slip of every kind; the joints of keys that are `neighbours` can touch."""
    near = list(neighbours)
    for key in plan.ends:
        yield from _of_key(plan, key, {one for pair in near for one in pair if key in pair})
    for wire in plan.wires:
        yield from _of_wire(plan, wire)
    for one, other in combinations(plan.pins, 2):
        yield Slip("pads bridged", (one, other))
    for one, other in near:
        if "none" not in (plan.diodes[one], plan.diodes[other]):
            yield Slip("middles touch", (one, other), side="drive")
            yield Slip("middles touch", (one, other), side="sense")
    yield from (Slip(EXCHANGED, pair) for pair in combinations(plan.ends, 2))


def _of_key(plan: Plan, key: str, near: set[str]) -> Iterator[Slip]:
    ends = plan.ends[key]
    for wire in ends:
        yield Slip("joint", (key, wire))
        for other in plan.wires:
            if other not in ends:
                yield Slip("leg elsewhere", (key, wire, other))
    yield Slip("switch dead", (key,))
    yield Slip("switch stuck", (key,))
    if plan.diodes[key] == "none":
        yield from (Slip("diode extra", (key, way)) for way in ("toward", "away"))
        return
    for kind in ("middle open", "diode open", "diode turned", "diode shorted"):
        yield Slip(kind, (key,))
    for wire in sorted({wire for one in near for wire in plan.ends[one]} - {*ends}):
        yield Slip("middle touches", (key, wire), side="drive")
        yield Slip("middle touches", (key, wire), side="sense")


def _of_wire(plan: Plan, name: str) -> Iterator[Slip]:
    wire = plan.wires[name]
    yield Slip("lead", (name,))
    yield Slip("on ground", (name,))
    for one, other in pairwise(wire.keys):
        for first, last, near, loose in ((name, "", one, other), ("", name, other, one)):
            yield Slip("hop", (name, near, loose), first, last)
            is_end = loose in (wire.keys[-1 if first else 0],)
            for touched in plan.wires:
                # A piece with one key that touches the key's other wire is seen as the break alone.
                if touched != name and not (is_end and touched in plan.ends[loose]):
                    yield Slip("piece touches", (name, near, loose, touched), first, last)
    yield from (Slip("lead on spare pin", (name, pin)) for pin in plan.spare)
    for other in plan.wires:
        if other > name:
            yield Slip("wires touch", (name, other))
            yield Slip("leads exchanged", (name, other))
            yield from (Slip("leads on one pin", (name, other, pin)) for pin in plan.spare)
        if other != name:
            yield Slip("lead on taken pin", (name, other))
