"""Edits of a file's facts, applied: if they make those of the new file, none is missing."""

from __future__ import annotations

from matrixgen.compare.edits import Edits, prepared
from matrixgen.compare.facts import Facts
from matrixgen.compare.renaming import transposed

NOT_SAID = None
"""The value of a fact where a file does not say it."""

ALWAYS_SAID = ("keyboard", "boot loader", "wiring", "on plate", "effective")
"""Kinds of facts of which `None` is a value like any other."""


def applied(edits: Edits, old: Facts) -> Facts:
    """Return the facts of the new file."""
    before = transposed(old) if edits.is_transposed else old
    facts = prepared(before, edits.gone, edits.renames)
    for edit in edits.edits:
        if edit.new is NOT_SAID and edit.path[0] not in ALWAYS_SAID:
            del facts[edit.path]
        else:
            facts[edit.path] = edit.new
    return facts
