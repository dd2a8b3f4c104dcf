"""Keys that are one action.

The press of a key of a set waits for the others, and so does all that comes after it. What it is
is decided at once when no set can come any more that has all the keys that were pressed since:
because the time of such sets is over, a key is pressed that is in none of them, one of those keys
is let go, or a set is whole and there is no larger one. Then the largest set that was whole within
its time does its action, of two equally large ones the one that was whole first; the others are
keys by themselves. If there is none, the oldest press is that of its key alone.

The action takes the place of the first press of its keys, and their time of it. It ends with the
first of them that is let go; the others do nothing more until they are let go themselves. A key
that is down when another one is pressed cannot come to it any more.

A set counts where its layer is on, no layer above gives one of its keys a cell, and none has a set
of the same keys. It is pressed by its first key on the plate, whichever came first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass, field

from matrixgen.behaviour.state import Event
from matrixgen.model.actions import Action
from matrixgen.record import Record


class KeySet(Record):
    """Keys in the order of the plate, what they do together, and within what time."""

    keys: tuple[str, ...]
    action: Action
    within_ms: int

    @property
    def presses(self) -> str:
        """The key that stands for all of them."""
        return self.keys[0]


class Gathering:
    """The oldest press, and the sets that its key is in."""

    def __init__(self, press: Event, sets: Iterable[KeySet], down: Set[str]) -> None:
        """`down` has the keys that were down before it."""
        self.press = press
        self.sets = [one for one in sets if press.key in one.keys and down.isdisjoint(one.keys)]

    def made(self, later: Sequence[Event], until_ms: int) -> tuple[KeySet | None, bool]:
        """Return the set that the press begins, if any, and whether that is decided.

        `later` has every event after it that happened before `until_ms`.
        """
        down, found = {self.press.key}, None
        for event in later:
            if not self._may_grow(down, event.at_ms):
                return found, True
            if event.down:
                fitting = [
                    one for one in self._in_time(event.at_ms) if {*down, event.key} <= {*one.keys}
                ]
                if not fitting:
                    return found, True
                down.add(event.key)
                found = self._whole(down, event, found)
            elif event.key in down:
                return found, True
        return found, not self._may_grow(down, until_ms)

    def _in_time(self, at_ms: int) -> Iterator[KeySet]:
        return (one for one in self.sets if at_ms - self.press.at_ms < one.within_ms)

    def _may_grow(self, down: Set[str], at_ms: int) -> bool:
        """Whether a set of more keys than those that are down can still come."""
        return any(down < {*one.keys} for one in self._in_time(at_ms))

    def _whole(self, down: Set[str], event: Event, found: KeySet | None) -> KeySet | None:
        """Return the largest set that is whole by now: the one found before, or a larger one."""
        whole = [one for one in self._in_time(event.at_ms) if down >= {*one.keys}]
        return max(
            [*([found] if found else []), *whole], key=lambda one: len(one.keys), default=None
        )


def other_presses(keys: KeySet | None, press: Event, later: Sequence[Event]) -> list[Event]:
    """Return the presses that a set takes along, of its keys but the oldest one."""
    others = set(keys.keys if keys else ()) - {press.key}
    return [next(event for event in later if event.key == key) for key in others]


@dataclass
class JoinedKeys:
    """The keys that went down as one of a set, with it as long as its action lasts."""

    sets: dict[str, KeySet | None] = field(default_factory=dict)

    def join(self, keys: KeySet) -> None:
        """Let all keys of a set be down."""
        self.sets |= dict.fromkeys(keys.keys, keys)

    def doer(self, key: str) -> str:
        """Return the key that does what a key does that is down, maybe along with others."""
        keys = self.sets.get(key)
        return keys.presses if keys else key

    def leave(self, key: str) -> str | None:
        """Let a key go up: return the one whose action ends with it, None if that is over."""
        if key not in self.sets:
            return key
        keys = self.sets[key]
        self.sets |= dict.fromkeys(keys.keys if keys else ())
        del self.sets[key]
        return keys.presses if keys else None
