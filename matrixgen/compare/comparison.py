"""Two files compared: the changes, the most work first, and a headline."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Literal

from matrixgen.compare.change import KINDS, RANKS, BenchStep, Change, Kind
from matrixgen.compare.changes.components import of_components
from matrixgen.compare.changes.computer import of_computer
from matrixgen.compare.changes.cutting import of_cutting
from matrixgen.compare.changes.diodes import of_diodes
from matrixgen.compare.changes.hands import of_hands
from matrixgen.compare.changes.kept_base import of_kept_base
from matrixgen.compare.changes.layers import of_layers
from matrixgen.compare.changes.others import of_others
from matrixgen.compare.changes.outline import of_outline
from matrixgen.compare.changes.places import of_places
from matrixgen.compare.changes.plate import of_plate
from matrixgen.compare.changes.settings import of_settings, of_waits
from matrixgen.compare.changes.stabilisers import of_stabilisers
from matrixgen.compare.changes.wiring import of_wiring
from matrixgen.compare.edits import Edits, edits_between, gone_and_renamed, prepared
from matrixgen.compare.facts import Facts, facts_of, names_in_cells
from matrixgen.compare.matching import Matches, are_transposed, matched
from matrixgen.compare.renaming import renamed_names, transposed
from matrixgen.compare.view import View
from matrixgen.model import Design
from matrixgen.model.prose import counted
from matrixgen.record import Record

SUBJECTS = (
    of_plate,
    of_places,
    of_outline,
    of_cutting,
    of_wiring,
    of_diodes,
    of_stabilisers,
    of_components,
    of_layers,
    of_hands,
    of_computer,
    of_settings,
    of_others,
)

MOST_THINGS = 3
"""Kinds of things that a headline counts one by one."""


class Comparison(Record):
    """What changed from one file to another."""

    changes: tuple[Change, ...]
    edits: Edits
    matches: Matches

    @property
    def kind(self) -> Literal["none", "solder", "reflash", "cosmetic"]:
        """The most work that a change asks for."""
        return next((kind for kind in KINDS if self.of_kind(kind)), "none")

    def of_kind(self, kind: Kind) -> list[Change]:
        """Return the changes of one kind."""
        return [change for change in self.changes if change.kind == kind]

    @cached_property
    def steps(self) -> tuple[BenchStep, ...]:
        """What to do on the bench, in an order in which one can work, each once."""
        steps = dict.fromkeys(step for change in self.changes for step in change.steps)
        return tuple(sorted(steps, key=lambda step: RANKS.index(step.rank)))

    @property
    def headline(self) -> str:
        """What to do about it, in a line."""
        if self.kind == "none":
            return "no change"
        if self.kind == "cosmetic":
            return f"cosmetic only: {_counted(self.changes)}"
        flash = self.of_kind("reflash")
        if self.kind == "reflash":
            return f"reflash only: {_counted(flash)}"
        then = f"; then reflash: {_counted(flash)}" if flash else "; then reflash"
        needs = any(change.needs_image for change in self.changes)
        return f"solder: {_counted(self.of_kind('solder'))}{then if needs else ''}"


def compare(
    old: Design,
    new: Design,
    waits: tuple[Mapping[str, int], Mapping[str, int]] | None = None,
    facts: tuple[Facts, Facts] | None = None,
) -> Comparison:
    """Return what changed from an old file to a new one.

    `waits` has the microseconds that lines get to settle where a file does not say, by controller,
    of the old and of the new file. `facts` are those of both, where they are known already.
    """
    first, after = facts or (facts_of(old), facts_of(new))
    is_transposed = are_transposed(first, after)
    if is_transposed:
        first = transposed(first)
    matches = matched(first, after)
    gone, renames = gone_and_renamed(first, matches)
    before = prepared(first, gone, renames)
    edits = Edits(gone, renames, edits_between(before, after), is_transposed)
    view = View(
        first=first,
        old=before,
        new=after,
        edits=edits,
        matches=matches,
        old_names=renamed_names(names_in_cells(old.keyboard), renames),
        new_names=names_in_cells(new.keyboard),
    )
    found = [change for subject in SUBJECTS for change in subject(view)]
    found += of_kept_base(old.keyboard, new.keyboard, renames.layers)
    found += of_waits(*waits) if waits else ()
    found.sort(key=lambda change: KINDS.index(change.kind))
    return Comparison(tuple(found), edits, matches)


def _counted(changes: Iterable[Change]) -> str:
    """Return how many changes there are of each thing: `3 keys on layer nav, 1 pin`."""
    counts = Counter[str]()
    layers: dict[str, set[str | None]] = {}
    counted_keys: set[tuple[str, str]] = set()
    for change in changes:
        if change.slug in PER_KEY:
            new = {(change.thing, key) for key in change.keys} - counted_keys
            counted_keys |= new
            counts[change.thing] += len(new)
        else:
            counts[change.thing] += 1
        layers.setdefault(change.thing, set()).add(change.layer)
    words = [_thing(thing, number, layers[thing]) for thing, number in counts.most_common()]
    more = len(words) - MOST_THINGS
    return ", ".join(words[:MOST_THINGS]) + (
        f" and {counted(more, 'other kind')} of change" if more > 0 else ""
    )


PER_KEY = frozenset({"keys-moved", "diodes-changed", "key-rewired"})
"""Changes that count once for each of their keys."""


def _thing(thing: str, number: int, layers: set[str | None]) -> str:
    names = sorted(layer for layer in layers if layer)
    first, _, rest = thing.partition(" ")
    plural = PLURALS.get(thing) or f"{first}s{' ' + rest if rest else ''}"
    words = f"1 {thing}" if number == 1 else f"{number} {plural}"
    if thing != "key" or not names:
        return words
    return f"{words} on {'layer' if len(names) == 1 else counted(len(names), 'layer')}" + (
        f" {names[0]}" if len(names) == 1 else ""
    )


PLURALS = {
    "corner of the plate": "corners of the plate",
    "exchange of row and column": "exchanges of row and column",
    "order of visits": "orders of visits",
    "order of keys": "orders of keys",
    "way to the boot loader": "ways to the boot loader",
    "USB ids": "USB ids",
    "keep-clear area": "keep-clear areas",
    "size of cut-outs": "sizes of cut-outs",
    "thickness": "thicknesses",
    "way to remember the base": "ways to remember the base",
}
"""Of what does not take an s after its first word."""
