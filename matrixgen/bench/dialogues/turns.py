"""From what a knob's contacts did: which two pins they are on, and which leads to the right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from matrixgen.bench.serial.contacts import Grounded
from matrixgen.model.prose import quoted
from matrixgen.record import Record


class KnobSeen(Record, kw_only=True):
    """What a knob did when it was turned.

    `pins` are the pins that it puts on ground, in the order that makes right mean right: none if
    nothing was seen, one if the other contact is dead. `meet` says that they were joined while
    neither was on ground, and `held` has the pins that were on ground all the time.
    """

    pins: tuple[str, ...] = ()
    meet: bool = False
    held: Grounded = frozenset()


def steps_right(states: Sequence[Grounded], first: str, second: str) -> int:
    """Return how many states a knob went to the right, less those to the left.

    The states are told by two pins. Where both changed at once, one change was missed: that counts
    for neither way.
    """
    places = [_place(state, first, second) for state in states]
    ways = ((after - before) % 4 for before, after in pairwise(places))
    return sum({1: 1, 3: -1}.get(way, 0) for way in ways)


def _place(state: Grounded, first: str, second: str) -> int:
    """Return which of the four states of two contacts it is: to the right, the first one leads."""
    return {(False, False): 0, (True, False): 1, (True, True): 2, (False, True): 3}[
        first in state, second in state
    ]


def moved_pins(states: Sequence[Grounded]) -> tuple[str, ...]:
    """Return the pins that were on ground at one time and not at another, by name."""
    return tuple(sorted(frozenset().union(*states).difference(frozenset.intersection(*states))))


def odd_with(knob: str, seen: KnobSeen, pins: Sequence[str]) -> str | None:
    """Return what a knob needs at its joints; None if both of its contacts work.

    `pins` are those that the file has it on, if it has: a dead contact is then named.
    """
    if len(seen.pins) == 2:
        joint = "ground is on one of its outer legs: it goes on the middle one"
        return f"joins its two pins to each other: {joint}" if seen.meet else None
    if len(pins) == 2 and not set(seen.pins) <= set(pins):
        pins = ()
    dead = [pin for pin in pins if pin not in seen.pins]
    stuck = [pin for pin in dead or sorted(seen.held) if pin in seen.held]
    if stuck:
        return f"never opens its contact on {quoted(stuck)}: that wire or leg touches ground"
    if not seen.pins:
        return (
            "closes neither contact: check the wire from its middle leg to ground, and its joints"
        )
    if dead:
        return f"never closes its contact on {quoted(dead)}: check that wire and the leg's joint"
    return (
        f"closes only one contact, on `{seen.pins[0]}`: check the wire and the joint of the other"
    )


def knob_faults(
    seen: Mapping[str, KnobSeen], file_pins: Mapping[str, Sequence[str]]
) -> Iterator[tuple[str, str]]:
    """Yield what is wrong with each knob that is not as the file has it, and its name."""
    for knob, one in seen.items():
        pins = tuple(file_pins[knob])
        if odd := odd_with(knob, one, pins):
            yield knob, odd
        elif one.pins == pins[::-1]:
            yield knob, f"turns the wrong way: write `on {' '.join(one.pins)}` in the file"
        elif one.pins != pins:
            other = other_knob(knob, one.pins, file_pins)
            whose = f", as `{other}` should be" if other else f", and not on {quoted(pins)}"
            yield knob, f"is on {quoted(one.pins)}{whose}: `learn` writes that into the file"


def other_knob(knob: str, pins: Iterable[str], known: Mapping[str, Sequence[str]]) -> str | None:
    """Return another knob that shares a pin with those of this one."""
    mine = set(pins)
    return next((one for one, of in known.items() if one != knob and mine & set(of)), None)
