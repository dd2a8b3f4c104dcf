"""What happens in a rehearsal: a record for each kind of thing, with its millisecond."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record
from matrixgen.rehearse.report_words import Report


class KeyMoved(Record):
    """A switch was closed or opened by hand."""

    at_ms: int
    key: str
    down: bool


class LockTold(Record):
    """The computer turned the light of a lock on, or off if it was on."""

    at_ms: int
    lock: str


class LightsLit(Record):
    """Other lights are lit than before, in the file's order."""

    at_ms: int
    lights: tuple[str, ...]


class Undecided(Record):
    """A press may become a tap or a hold; `action` has both, in the words of the language.

    Or it may be that of several keys: it then has those that may come.
    """

    at_ms: int
    key: str
    action: str


class Waits(Record):
    """A press counts, but nothing is done about it until the press of `behind` is decided."""

    at_ms: int
    key: str
    behind: str


Taken = Literal["tap", "hold", "first", "second", "third"]
"""What a press turns out to be."""


class Does(Record):
    """A press does something now; `decided` says what it was taken for, where it could be both."""

    at_ms: int
    key: str
    action: str
    decided: Taken | None


class LayersOn(Record):
    """Other layers are on than before; from the top down."""

    at_ms: int
    layers: tuple[str, ...]


class Lingers(Record):
    """What `once` keys have left on changed: for the next key, and until pressed again."""

    at_ms: int
    next_key: tuple[str, ...]
    pressed_again: tuple[str, ...]


class Reported(Record):
    """A report left for the host."""

    at_ms: int
    report: Report


class Appeared(Record):
    """The computer has written something, or a dead key waits for the next key, by its sign."""

    at_ms: int
    text: str
    dead_key: str | None


class TextShown(Record):
    """The whole text that the computer has at the end, before the caret and after it."""

    at_ms: int
    before: str
    after: str


class BootLoaderStarts(Record):
    """The keyboard is none any more; with `early`, steps of the script are left."""

    at_ms: int
    early: bool


class Ends(Record):
    """The script is over: keys that are still down, and those whose press is not decided."""

    at_ms: int
    down: tuple[str, ...]
    undecided: tuple[str, ...]


Happening = (
    KeyMoved
    | LockTold
    | LightsLit
    | Undecided
    | Waits
    | Does
    | LayersOn
    | Lingers
    | Reported
    | Appeared
    | TextShown
    | BootLoaderStarts
    | Ends
)
