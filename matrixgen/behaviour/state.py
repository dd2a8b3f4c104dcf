"""What is so at one moment because of the keys that are down and of those that were pressed."""

from __future__ import annotations

from collections.abc import Iterable, Set
from dataclasses import dataclass, field
from typing import Literal

from matrixgen.model import BASE, Pointer, TapHold
from matrixgen.record import Record

Thing = str | int
"""What a `once` key turns on: a layer by its name, or a modifier by its bit."""


class Event(Record):
    """A key went down or up; `at_ms` is when that was read first."""

    key: str
    down: bool
    at_ms: int


@dataclass
class Held:
    """What the keys that are down hold, put together anew each time it is asked for."""

    usages: set[int] = field(default_factory=set)
    modifiers: int = 0
    layers: set[str] = field(default_factory=set)
    media: set[tuple[int, int]] = field(default_factory=set)
    pointer: set[Pointer] = field(default_factory=set)


@dataclass
class Typing:
    """The last key that typed: when it was pressed, and let go if it was.

    `tap_of` is the action of which that was the tap; None if it was none, or once the key was
    pressed again for what types nothing.
    """

    key: str
    pressed_ms: int
    tap_of: TapHold | None
    let_go_ms: int | None = None


@dataclass
class Lasting:
    """What presses have left behind.

    `waiting` has what is on for the next key or until pressed again; `fresh` what a `once` key
    holds without any typing so far; `used` the modifiers that the key `used_by` is typing with;
    `pressed_last` what the last press of a `once` key turns on; `let_go_ms` when the last one was
    let go.
    """

    latched: set[str] = field(default_factory=set)
    lowest: str = BASE
    waiting: dict[Thing, Literal["next key", "pressed again"]] = field(default_factory=dict)
    pressed_last: Set[Thing] = frozenset()
    let_go_ms: int = 0
    fresh: set[Thing] = field(default_factory=set)
    used: int = 0
    used_by: str | None = None
    typed: Typing | None = None
    boot_loads: int = 0

    def for_next_key(self) -> list[Thing]:
        """Return what is on for the next key."""
        return [thing for thing, until in self.waiting.items() if until == "next key"]

    def end(self, things: Iterable[Thing]) -> None:
        """Let these wait no longer."""
        for thing in things:
            self.waiting.pop(thing, None)

    def unlatch(self) -> None:
        """Let no layer be on that no key holds, but the lowest ones."""
        self.latched.clear()
        self.end([thing for thing in self.waiting if isinstance(thing, str)])

    @property
    def layers(self) -> set[str]:
        """Layers that are on whatever is held."""
        return self.latched | {thing for thing in self.waiting if isinstance(thing, str)}

    @property
    def next_modifiers(self) -> int:
        """Modifiers that are down for the next key, or until pressed again."""
        return sum(thing for thing in self.waiting if isinstance(thing, int))

    @property
    def modifiers(self) -> int:
        """Modifiers that are down whatever is held."""
        return self.used | self.next_modifiers
