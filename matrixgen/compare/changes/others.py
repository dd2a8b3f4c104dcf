"""Whatever else a file says: a field that nothing else reports is reported by its name."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.compare.change import Change
from matrixgen.compare.changes.cutting import OF_FIELD
from matrixgen.compare.changes.places import CHANGES
from matrixgen.compare.edits import FactEdit
from matrixgen.compare.facts import CONTROLLER, OUTLINE
from matrixgen.compare.view import View
from matrixgen.compare.works import work_of_fact

OF_ONE = {"wire": "colour", "layer": "needs"}
"""Kinds of facts of one wire or layer, and the field that is reported elsewhere."""


def of_others(view: View) -> Iterator[Change]:
    """Yield what changed in fields that no other file of this folder knows."""
    for edit in view.of("on plate"):
        if edit.path[1] not in (*CHANGES, *OF_FIELD, CONTROLLER, OUTLINE):
            yield _change(edit, "the plate")
    for edit in view.of(*OF_ONE):
        kind, name, field = edit.path
        added = view.added_lines if kind == "wire" else view.added_layers
        if field != OF_ONE[kind] and name not in added:
            yield _change(edit, f"{kind} `{name}`")


def _change(edit: FactEdit, of: str) -> Change:
    field = edit.path[-1].replace("_", " ")
    old, new = ("the default" if value is None else str(value) for value in (edit.old, edit.new))
    work = work_of_fact(edit.path)
    return Change(
        kind=work,
        slug=f"{field.replace(' ', '-')}-changed",
        text=f"the {field} of {of} changed from {old} to {new}",
        thing=field,
        old=old,
        new=new,
        reflashes=work == "solder",
    )
