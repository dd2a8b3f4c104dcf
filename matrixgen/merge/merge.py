"""Three versions of a file to one: what each side changed is changed, wherever it stands."""

from __future__ import annotations

import re

from matrixgen.merge.blocks import merged_entries
from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.layer_order import layers_put_in_order
from matrixgen.merge.markers import between_markers, marked
from matrixgen.merge.renames import final_names, twice_renamed
from matrixgen.merge.rewrite import renamed
from matrixgen.merge.sides import Version, side_of
from matrixgen.merge.statement import merged_above
from matrixgen.merge.three_way import Which, chosen
from matrixgen.model.text import BYTE_ORDER_MARK, SourceText
from matrixgen.record import Record, changed
from matrixgen.source.edits import usual_line_end
from matrixgen.source.tree import written

_CONFLICT = re.compile(r"^<{7}(?: [^\n]*)?\n.*?^>{7}(?: [^\n]*)?\n", re.MULTILINE | re.DOTALL)


class Merged(Record):
    """A merged text, and what each conflict that is left in it is about.

    `layers_put_in_order` are the layers of both sides whose order the merge chose, the highest
    first.
    """

    text: str
    conflicts: tuple[str, ...]
    layers_put_in_order: tuple[str, ...] = ()


class Form(Record):
    """How a text is written: its byte order mark, its line ends, and whether its last line ends."""

    mark: str
    line_end: str
    last: str


def merge(base: str, ours: str, theirs: str) -> Merged | None:
    """Return the merge of three texts; None where the reader finds a mistake in one of them.

    A text that is the same on two of the three is not looked at, and goes on as the third has it.
    A base that has conflicts itself, as git makes them of several ancestors, is taken to say
    nothing there.
    """
    if ours == theirs or theirs == base:
        return Merged(ours, ())
    if ours == base:
        return Merged(theirs, ())
    plain = [_plain(text) for text in (base, ours, theirs)]
    sides = [side_of(_CONFLICT.sub("", plain[0][0])), *(side_of(text) for text, _ in plain[1:])]
    form = chosen_form([form for _, form in plain])
    if sides[0] is None or sides[1] is None or sides[2] is None:
        return None
    merged = _merged(sides[0], sides[1], sides[2])
    return changed(merged, text=_formed(merged.text, form))


def _merged(base: Version, ours: Version, theirs: Version) -> Merged:
    outcomes: list[list[Entry]] = []
    orders: list[tuple[str, ...]] = []
    clashes: dict[object, list[str]] = {}
    below, is_clash = merged_above(base.tree.below, ours.tree.below, theirs.tree.below, "ours")
    preferences: tuple[Which, Which] = ("ours", "theirs")
    for prefer in preferences:
        context = MergeContext(*_same_names(base, ours, theirs, prefer), prefer)
        outcomes.append(merged_entries(context))
        orders.append(layers_put_in_order(context, outcomes[-1]))
        for place, labels in context.clashes.items():
            clashes.setdefault(place, labels)
    found = marked(outcomes[0], outcomes[1], clashes, twice_renamed(base, ours, theirs))  # type: ignore[arg-type]
    last = "".join(piece.text for piece in below)
    if not is_clash:
        return Merged(found.text + last, found.conflicts, orders[0])
    other, _ = merged_above(base.tree.below, ours.tree.below, theirs.tree.below, "theirs")
    label = "comments at the end"
    both = between_markers(label, last, "".join(piece.text for piece in other))
    return Merged(found.text + both, (*found.conflicts, label), orders[0])


def _same_names(
    base: Version, ours: Version, theirs: Version, prefer: Which
) -> tuple[Version, Version, Version]:
    """Return the three with one name for each thing; as they are where that does not read."""
    names = final_names(base, ours, theirs, prefer)
    found = [
        side_of(written(renamed(side.tree, new))) if new else side
        for side, new in zip((base, ours, theirs), names, strict=True)
    ]
    if found[0] is None or found[1] is None or found[2] is None:
        return base, ours, theirs
    return found[0], found[1], found[2]


def _plain(text: str) -> tuple[str, Form]:
    """Return a text with line feeds alone, the last line ended, and how it was written."""
    mark = BYTE_ORDER_MARK if text.startswith(BYTE_ORDER_MARK) else ""
    plain = SourceText("", text).text
    last = "\n" if plain.endswith("\n") else ""
    return plain + ("" if last else "\n"), Form(mark, usual_line_end(text), last)


def chosen_form(forms: list[Form]) -> Form:
    """Return how the merged text is written: as the side that changed it wants."""
    base, ours, theirs = forms
    return Form(
        chosen(base.mark, ours.mark, theirs.mark, "ours"),
        chosen(base.line_end, ours.line_end, theirs.line_end, "ours"),
        chosen(base.last, ours.last, theirs.last, "ours"),
    )


def _formed(text: str, form: Form) -> str:
    body = text if form.last else text.removesuffix("\n")
    return form.mark + body.replace("\n", form.line_end)
