"""One change between two files, in words: what kind of work it is, and how to do it."""

from __future__ import annotations

from typing import Literal

from matrixgen.model.work import WORKS, Work
from matrixgen.record import Record

Kind = Work
KINDS = WORKS

Rank = Literal["take off", "cut", "plate", "switch", "diode", "wire", "pin"]

RANKS: tuple[Rank, ...] = ("take off", "cut", "plate", "switch", "diode", "wire", "pin")
"""What is done when on the bench: first all that is taken off, last what goes to the controller."""


class BenchStep(Record):
    """One thing to do on the bench."""

    rank: Rank
    text: str


class Change(Record, kw_only=True):
    """One change. `slug` names its kind in a word, `about` counts in a headline: `3 keys`.

    `keys` are those that it is about, by their new names, or by their old ones where they are gone;
    `layer` the layer, if it is about one. `is_guess` says that something else may have been meant.
    `reflashes` is whether a change that is to be soldered asks for a new image as well.
    """

    kind: Kind
    slug: str
    text: str
    thing: str
    keys: tuple[str, ...] = ()
    layer: str | None = None
    old: str | None = None
    new: str | None = None
    steps: tuple[BenchStep, ...] = ()
    is_guess: bool = False
    reflashes: bool = False

    @property
    def needs_image(self) -> bool:
        """Whether a new image has to be loaded."""
        return self.kind == "reflash" or self.reflashes
