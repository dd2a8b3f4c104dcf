"""A key that does one thing, and others when it is pressed again soon.

What a press means is decided from the events after it, in their order, and from time, both by first
readings. It is this press that means something once its time is over, or another key goes down. If
the key itself goes down again before that, the press only counts, and does nothing, and what that
next press means is asked in turn. The last press that the key knows is decided at once. What the
press means is held for as long as that press is.

Until then the press and what follows it wait, except the release of a key that was down before and
only types. The key's action is the one that its first press found, whatever layers are let go
between. A press that is that of keys together is none of the key itself; one that counts on waits
for no other keys.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.behaviour.state import Event
from matrixgen.model import Action, FirstSecond
from matrixgen.record import Record


class Counted(Record):
    """Presses of a key that only counted: its next press is one more."""

    key: str
    action: FirstSecond
    presses: int


BeginsSet = Callable[[Event, Sequence[Event]], bool | None]
"""Whether a press is that of keys together, given the events after it; None if that is open."""


def decided(
    action: FirstSecond,
    before: int,
    event: Event,
    later: Sequence[Event],
    until_ms: int,
    begins_set: BeginsSet,
) -> tuple[Action | None, int]:
    """Return what a press does, None while that is open, and how many events it was open for.

    It does `action` itself if it only counts. `before` presses have. `later` has every event after
    it that happened before `until_ms`.
    """
    meaning = action.parts[before]
    if before + 1 == len(action.parts):
        return meaning, 0
    ends_ms = event.at_ms + action.within_ms
    for place, other in enumerate(later):
        if other.at_ms >= ends_ms:
            return meaning, place
        if other.down and other.key != event.key:
            return meaning, place
        if other.down:
            begins = begins_set(other, later[place + 1 :])
            return (None if begins is None else meaning if begins else action), place
    return (meaning if until_ms >= ends_ms else None), len(later)
