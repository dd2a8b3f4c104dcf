"""What happens in a rehearsal: a record for each kind of thing, with its millisecond.

Each has a word for its kind, which JSON has as `what`, and says what happened in words, which are
still to be made fit for a terminal.
"""

from __future__ import annotations

import json
from typing import ClassVar, Literal

from matrixgen.record import Record
from matrixgen.rehearse.report_words import Report

BLANKS = {" ": "a space", "\n": "a line break", "\t": "a tab"}

Taken = Literal["tap", "hold", "first", "second", "third"]
"""What a press turns out to be."""


class Happening(Record):
    """Anything that happens."""

    at_ms: int

    what: ClassVar[str]

    @property
    def words(self) -> str:
        """What happened, without its time and its key; nothing for a move, which is its sign."""
        return self._words()

    def _words(self) -> str:
        return ""


class KeyHappening(Happening):
    """What one key does, or what becomes of its press."""

    key: str


class KeyMoved(KeyHappening):
    """A switch was closed or opened by hand."""

    down: bool

    what = "moved"


class LockTold(Happening):
    """The computer turned the light of a lock on, or off if it was on."""

    lock: str

    what = "computer says"

    def _words(self) -> str:
        return f"the computer says {self.lock}"


class LightsLit(Happening):
    """Other lights are lit than before, in the file's order."""

    lights: tuple[str, ...]

    what = "lights"

    def _words(self) -> str:
        return f"lights: {', '.join(self.lights) or 'all dark'}"


class Undecided(KeyHappening):
    """A press may become a tap or a hold; `action` has both, in the words of the language.

    Or it may be that of several keys: it then has those that may come.
    """

    action: str

    what = "undecided"

    def _words(self) -> str:
        return f"undecided: {self.action}"


class Waits(KeyHappening):
    """A press counts, but nothing is done about it until the press of `behind` is decided."""

    behind: str

    what = "waits"

    def _words(self) -> str:
        return f"waits until {self.behind} is decided"


class Does(KeyHappening):
    """A press does something now; `decided` says what it was taken for, where it could be both."""

    action: str
    decided: Taken | None

    what = "does"

    def _words(self) -> str:
        if self.decided is None:
            return self.action
        return f"decided: {self.decided} {self.action.removeprefix('hold ')}"


class LayersOn(Happening):
    """Other layers are on than before; from the top down."""

    layers: tuple[str, ...]

    what = "layers"

    def _words(self) -> str:
        return f"layers: {', '.join(self.layers)}"


class Lingers(Happening):
    """What `once` keys have left on changed: for the next key, and until pressed again."""

    next_key: tuple[str, ...]
    pressed_again: tuple[str, ...]

    what = "lingers"

    def _words(self) -> str:
        on = {"for the next key": self.next_key, "until pressed again": self.pressed_again}
        return _named(on) or "nothing waits for the next key"


class Reported(Happening):
    """A report left for the host."""

    report: Report

    what = "report"

    def _words(self) -> str:
        of = "" if self.report.of == "keyboard" else f"{self.report.of} "
        return f"{of}report: {self.report.words}"


class Appeared(Happening):
    """The computer has written something, or a dead key waits for the next key, by its sign."""

    text: str
    dead_key: str | None

    what = "writes"

    def _words(self) -> str:
        parts = [f"writes {BLANKS.get(self.text, self.text)}"] if self.text else []
        if self.dead_key:
            parts.append(f"the dead key {self.dead_key} waits for the next key")
        return "; ".join(parts)


class TextShown(Happening):
    """The whole text that the computer has at the end, before the caret and after it."""

    before: str
    after: str

    what = "text"

    def _words(self) -> str:
        parts = [self.before, self.after] if self.after else [self.before]
        return "text: " + ", caret, ".join(json.dumps(one, ensure_ascii=False) for one in parts)


class BootLoaderStarts(Happening):
    """The keyboard is none any more; with `early`, steps of the script are left."""

    early: bool

    what = "boot-loader"

    def _words(self) -> str:
        early = "; what is left of the script is not played" if self.early else ""
        return f"the keyboard leaves USB and becomes its boot loader{early}"


class Ends(Happening):
    """The script is over: keys that are still down, and those whose press is not decided."""

    down: tuple[str, ...]
    undecided: tuple[str, ...]

    what = "end"

    def _words(self) -> str:
        return _named({"still down": self.down, "still undecided": self.undecided})


def _named(things: dict[str, tuple[str, ...]]) -> str:
    """Return names after what they are, where there are any."""
    return "; ".join(f"{what}: {', '.join(names)}" for what, names in things.items() if names)
