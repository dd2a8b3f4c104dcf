"""A knob as a thing: a shaft with detents and two contacts that bounce, by time.

The contacts are closed while the shaft is in their half of a cycle of four states, B a quarter
behind A. At each change, the contact that changes bounces for a share of the time until the next
one: datasheets of 12 mm encoders state at most 2 ms at 15 turns a minute, where a state of 24
pulses a turn lasts 42 ms, and of an 11 mm kind 3 ms at 60 a minute, where it lasts 10.4 ms: at most
0.29 of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

BOUNCE_SHARE = 0.3
"""The longest bounce, in states' times."""


@dataclass
class Move:
    """From when on a contact is closed or open, in microseconds."""

    at_us: float
    contacts: int
    """A is bit 0, B is bit 1."""


def contacts_at(place: int) -> int:
    """Return the closed contacts of a state, counted to the right from the detent of a rest."""
    return (0, 1, 3, 2)[place % 4]


class Shaft:
    """A knob that is turned by states, and what its contacts do meanwhile."""

    def __init__(self, states: int, chance: Random, bounce: float = BOUNCE_SHARE) -> None:
        self.states, self.chance, self.bounce = states, chance, bounce
        self.place, self.at_us = 0, 0.0
        self.moves: list[Move] = []
        self.counted = 0
        """Steps to the right less those to the left, as a finger feels them at the detents."""
        self.detent = 0

    def turn(self, way: int, state_us: float) -> None:
        """Turn by one state, `way` 1 to the right and -1 to the left, in so many microseconds."""
        before, self.place = contacts_at(self.place), self.place + way
        after = contacts_at(self.place)
        bouncing = [before, after] * self.chance.randrange(4)
        longest = self.bounce * state_us
        times = sorted(self.chance.uniform(0, longest) for _ in bouncing)
        self.moves.append(Move(self.at_us, after))
        for at_us, contacts in zip(times, bouncing, strict=True):
            self.moves.append(Move(self.at_us + at_us, contacts))
        self.moves[-1].contacts = after
        self.at_us += state_us
        if abs(self.place - self.detent) == self.states:
            self.detent = self.place
            self.counted += way

    def rest(self, pause_us: float) -> None:
        """Leave it alone."""
        self.at_us += pause_us

    def between(self, from_us: float, to_us: float) -> list[Move]:
        """Return what the contacts do in a time."""
        return [move for move in self.moves if from_us <= move.at_us < to_us]
