"""Two files as a list of edits, exactly, whatever is reported of it."""

from __future__ import annotations

from typing import Any

from matrixgen.compare.component_matching import gone_steps, renamed_steps
from matrixgen.compare.facts import FactPath, Facts, of_kind
from matrixgen.compare.matching import Matches
from matrixgen.compare.renaming import Gone, Renames, renamed, without
from matrixgen.record import Record


class FactEdit(Record):
    """One fact that differs: its path, and its values in the old and in the new file."""

    path: FactPath
    old: Any
    new: Any


class Edits(Record):
    """From one file's facts to another's: what is gone, then what is renamed, then what differs.

    Before all that, rows are called columns and columns rows where `is_transposed`.
    """

    gone: Gone
    renames: Renames
    edits: tuple[FactEdit, ...]
    is_transposed: bool = False


def gone_and_renamed(old: Facts, matches: Matches) -> tuple[Gone, Renames]:
    """Return what the new file has no longer, and what it calls otherwise."""
    gone = Gone(
        keys=frozenset(of_kind(old, "key").keys() - matches.keys.new_of.keys())
        | gone_steps(old, matches.components),
        lines=frozenset(of_kind(old, "line").keys() - matches.lines.new_of.keys()),
        layers=frozenset(set(old["layers",]) - matches.layers.new_of.keys()),
        actions=frozenset(of_kind(old, "action").keys() - matches.actions.new_of.keys()),
    )
    renames = Renames(
        keys=matches.keys.renames | renamed_steps(old, matches.components),
        lines=matches.lines.renames,
        layers=matches.layers.renames,
        actions=matches.actions.renames,
    )
    return gone, renames


def edits_between(before: Facts, new: Facts) -> tuple[FactEdit, ...]:
    """Return the facts in which the new file differs from the old one, `prepared` for it."""
    paths = dict.fromkeys((*before, *new))
    values = ((path, before.get(path), new.get(path)) for path in paths)
    return tuple(FactEdit(path, old, now) for path, old, now in values if old != now)


def prepared(old: Facts, gone: Gone, renames: Renames) -> Facts:
    """Return the old file's facts in the names of the new one."""
    left = without(old, gone) if any(vars(gone).values()) else old
    return renamed(left, renames) if any(vars(renames).values()) else dict(left)
