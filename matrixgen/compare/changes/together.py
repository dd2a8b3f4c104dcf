"""Sets of keys that are one action: what they do, and within what time."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from matrixgen.compare.change import Change
from matrixgen.compare.edits import FactEdit
from matrixgen.compare.fact_words import sent_words
from matrixgen.compare.facts import CellPlace
from matrixgen.compare.view import View


def is_other_time(edit: FactEdit) -> bool:
    """Whether a set of both files has another time."""
    return bool(edit.old and edit.new) and edit.old[1] != edit.new[1]


def of_together(view: View, told: Collection[CellPlace]) -> Iterator[Change]:
    """Yield each set that does something else on a layer of both files; `told` are told of."""
    added_keys, added_layers = set(view.added_keys), set(view.added_layers)
    for edit in view.of("together"):
        _, layer, *keys = edit.path
        if layer in added_layers or not added_keys.isdisjoint(keys) or edit.path[1:] in told:
            continue
        old, new = _said(view, edit)
        yield Change(
            kind="reflash",
            slug="keys-together",
            text=f"layer `{layer}`: `{' '.join(keys)}` together {_text(edit, old, new)}",
            thing="set of keys together",
            keys=tuple(keys),
            layer=layer,
            old=old,
            new=new,
        )


def _said(view: View, edit: FactEdit) -> tuple[str | None, str | None]:
    """Return what the set does in both files, as it is written; in full where that is alike."""
    place = edit.path[1:]
    old = view.old_names.written.get(place) if edit.old else None
    new = view.new_names.written.get(place) if edit.new else None
    if edit.old and edit.new and old == new and edit.old[0] != edit.new[0]:
        return sent_words(edit.old[0]), sent_words(edit.new[0])
    return old, new


def _text(edit: FactEdit, old: str | None, new: str | None) -> str:
    if edit.old is None:
        return f"are now `{new}`; they were keys by themselves"
    if edit.new is None:
        return f"are now keys by themselves; they were `{old}`"
    times = f"have {edit.new[1]} ms instead of {edit.old[1]} ms"
    if edit.old[0] == edit.new[0]:
        return times
    also = f", and {times}" if edit.old[1] != edit.new[1] else ""
    return f"changed from `{old}` to `{new}`{also}"
