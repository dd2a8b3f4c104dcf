"""What the computer is set to, and which keys send something else because of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.compare.change import Change
from matrixgen.compare.facts import CellPlace, Facts
from matrixgen.compare.view import MOST_NAMED, View
from matrixgen.model.prose import named

FIELDS = ("computer", "system")
"""The fields of a keyboard that say it."""


def of_computer(view: View) -> Iterator[Change]:
    """Yield one change where the computer is another: with an image, if a key sends other keys."""
    if not is_other_computer(view):
        return
    old, new = (_said(facts) for facts in (view.old, view.new))
    resent = [cell for cell in _kept_cells(view) if is_sent_otherwise(view, cell)]
    keys = tuple(dict.fromkeys(key for _, *of_cell in resent for key in of_cell))
    yield Change(
        kind="reflash" if keys else "cosmetic",
        slug="computer-changed",
        text=f"the computer changed from {old} to {new}{_so(keys)}",
        thing="computer",
        keys=keys,
        old=old,
        new=new,
    )


def _so(keys: tuple[str, ...]) -> str:
    if not keys:
        return ": the same image"
    send = "send" if len(keys) > 1 else "sends"
    return f", so {named(keys, 'key', MOST_NAMED)} {send} other keys"


def is_other_computer(view: View) -> bool:
    """Whether the files say something else of the computer."""
    return any(edit.path[1] in FIELDS for edit in view.of("keyboard"))


def is_sent_otherwise(view: View, cell: CellPlace) -> bool:
    """Whether a cell of both files is written alike, but another computer needs other keys."""
    written = (view.old_names.written.get(cell), view.new_names.written.get(cell))
    return is_other_computer(view) and written[0] == written[1]


def _kept_cells(view: View) -> Iterator[CellPlace]:
    """Yield the cells of both files that send something else."""
    for edit in view.of("cell", "together"):
        if edit.old is not None and edit.new is not None:
            yield edit.path[1:]


def _said(facts: Facts) -> str:
    computer, system = (facts["keyboard", field] for field in FIELDS)
    if computer is None:
        return "the default"
    return f"`{computer} on {system}`" if system else f"`{computer}`"


def sent_text(layer: str, key: str, word: str, old: Any, new: Any) -> str:
    """Return what is said of a key whose cell is written alike and sent by other keys."""
    where = f"layer `{layer}`: `{key}`"
    if old.phrase == new.phrase:
        return f"{where} sends other keys for `{word}`"
    as_written = "" if word == key else f", written `{word}`,"
    return f"{where}{as_written} now sends `{new.phrase}` instead of `{old.phrase}`"
