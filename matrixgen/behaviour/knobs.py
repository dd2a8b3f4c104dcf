"""Knobs: from two contacts to steps, and the steps that wait.

Turned to the right, a knob closes A, then B too, opens A, then B: a Gray code, of which one change
is one state on or back. A step is one once the `states` of it are through, and the next one begins
there. So a contact that bounces adds up to nothing, and so does a knob that is turned on and back
within a step.

Both contacts never change at once. Where they seem to, a state was missed, and the knob is taken to
go on as it went: the way of the part of a step that is through, else of the last step. Either way
two states are counted, so that the count always fits the contacts.

Each direction is a key of its own, which a step presses and lets go. A step is no typing to a key
with a tap and a hold, and decides nothing. It waits until nothing of keys does, and until the
computer has taken all reports; opposite steps that wait cancel each other. A key waits for no step,
except that the one that is down goes up first. While no computer listens, steps are lost, and
wherever a knob is then is a detent.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from matrixgen.model.knob import Knob, steps_of

MOST_WAITING = 127
"""Steps of one knob that wait; further ones are lost."""

Contacts = tuple[bool, bool]
"""Whether A and B are closed."""

OPEN: Contacts = (False, False)

TO_THE_RIGHT: Sequence[Contacts] = (OPEN, (True, False), (True, True), (False, True))
"""The states that a knob goes through as it is turned to the right, again and again."""


@dataclass
class Turning:
    """One knob: where its contacts were read last, and what was counted since its last step."""

    states: int
    contacts: Contacts = OPEN
    part: int = 0
    way: int = 1
    waiting: int = 0

    def read(self, contacts: Contacts) -> None:
        """Take a reading of the contacts."""
        before, after = map(TO_THE_RIGHT.index, (self.contacts, contacts))
        self.contacts = contacts
        self.part += self._moved((after - before) % 4)
        if abs(self.part) >= self.states:
            self.way = 1 if self.part > 0 else -1
            self.part -= self.way * self.states
            self.waiting = max(-MOST_WAITING, min(self.waiting + self.way, MOST_WAITING))

    def _moved(self, on: int) -> int:
        if on == 2:
            return -2 if (self.part or self.way) < 0 else 2
        return -1 if on == 3 else on

    def forget(self, contacts: Contacts) -> None:
        """Take where it is for a detent, and no step for done."""
        self.contacts, self.part, self.waiting = contacts, 0, 0


@dataclass
class Knobs:
    """All knobs of a keyboard, by their names, in their order.

    `contacts` is the world's: what a test or a rehearsal turns. `step` is the key of the step that
    has begun, and `is_down` whether it is down by now.
    """

    turning: Mapping[str, Turning]
    contacts: dict[str, Contacts]
    step: str | None = None
    is_down: bool = False

    @classmethod
    def of(cls, knobs: Sequence[Knob]) -> Knobs:
        """Return the knobs at rest."""
        names = [knob.name.text for knob in knobs]
        states = [knob.states for knob in knobs]
        turning = dict(zip(names, map(Turning, states), strict=True))
        return cls(turning, dict.fromkeys(names, OPEN))

    @property
    def are_done(self) -> bool:
        """Whether no step waits, and none is down."""
        return self.step is None and not any(one.waiting for one in self.turning.values())

    def turn(self, name: str, states: int) -> None:
        """Turn a knob by so many states at once, those to the left below 0."""
        place = TO_THE_RIGHT.index(self.contacts[name])
        self.contacts[name] = TO_THE_RIGHT[(place + states) % 4]

    def read(self) -> None:
        """Read all contacts."""
        for name, one in self.turning.items():
            one.read(self.contacts[name])

    def forget(self) -> None:
        """Let no step wait."""
        for name, one in self.turning.items():
            one.forget(self.contacts[name])

    def begin(self) -> str | None:
        """Let the next step that waits begin; return its key, or None if none waits."""
        for name, one in self.turning.items():
            if one.waiting:
                way = 1 if one.waiting > 0 else -1
                one.waiting -= way
                self.step, self.is_down = steps_of(name)[way > 0], False
                return self.step
        return None

    def goes_down(self) -> bool:
        """Whether the step goes down now; else it goes up, and is over."""
        self.is_down = not self.is_down
        if not self.is_down:
            self.step = None
        return self.is_down
