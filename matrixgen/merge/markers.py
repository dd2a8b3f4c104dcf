"""Two outcomes of a merge as one text: where they differ, both between conflict markers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher

from matrixgen.merge.context import Entry
from matrixgen.merge.labels import block_label
from matrixgen.merge.three_way import Id
from matrixgen.record import Record
from matrixgen.source.conflicts import BETWEEN, END, START
from matrixgen.source.tree import Piece

MOST_SHOWN = 3
"""Things that a marker names before it says that there are more."""

Clashes = Mapping[tuple[Id, Id], Sequence[str]]


class Marked(Record):
    """A text with conflict markers, and what each conflict is about."""

    text: str
    conflicts: tuple[str, ...]


def marked(
    ours: Sequence[Entry], theirs: Sequence[Entry], clashes: Clashes, names: list[str]
) -> Marked:
    """Return the text of two outcomes that are the same but where the sides disagree.

    `names` says what both sides renamed, in ways that differ.
    """
    one, two = [list(map(_whole, entries)) for entries in (ours, theirs)]
    texts: list[str] = []
    conflicts: list[str] = []
    for what, a, b, c, d in SequenceMatcher(None, one, two, autojunk=False).get_opcodes():
        if what == "equal":
            texts += [text for _, text in one[a:b]]
            continue
        for mine, other in _pairs(ours[a:b], theirs[c:d]):
            conflicts.append(_label(mine, other, clashes, names))
            texts.append(_conflict(mine, other, conflicts[-1]))
    return Marked("".join(texts), tuple(conflicts))


def _whole(entry: Entry) -> tuple[tuple[Id, Id], str]:
    text = _text(entry.statement.above) + _text(entry.statement.pieces)
    return (entry.block, entry.id), text


def _text(pieces: Sequence[Piece]) -> str:
    return "".join(piece.text for piece in pieces)


def _pairs(
    ours: Sequence[Entry], theirs: Sequence[Entry]
) -> list[tuple[Sequence[Entry], Sequence[Entry]]]:
    """Return what belongs together: each statement by itself where both sides have the same."""
    if [(one.block, one.id) for one in ours] == [(two.block, two.id) for two in theirs]:
        return [([one], [two]) for one, two in zip(ours, theirs, strict=True)]
    return [(ours, theirs)]


def _label(
    ours: Sequence[Entry], theirs: Sequence[Entry], clashes: Clashes, names: list[str]
) -> str:
    """Return what a conflict is about."""
    places = dict.fromkeys((one.block, one.id) for one in (*ours, *theirs))
    labels = list(dict.fromkeys(label for place in places for label in clashes.get(place, ())))
    labels = labels or names or list(dict.fromkeys(block_label(block) for block, _ in places))
    more = [f"{len(labels) - MOST_SHOWN} more"] if len(labels) > MOST_SHOWN else []
    return ", ".join([*labels[:MOST_SHOWN], *more])


def _conflict(ours: Sequence[Entry], theirs: Sequence[Entry], label: str) -> str:
    """Return two versions between markers; what stands above both of them is written once."""
    above, mine, other = _shared_above(ours, theirs)
    return above + between_markers(label, mine, other)


def between_markers(label: str, mine: str, other: str) -> str:
    """Return two versions of whole lines between conflict markers."""
    return f"{START} ours: {label}\n{mine}{BETWEEN}\n{other}{END} theirs\n"


def _shared_above(ours: Sequence[Entry], theirs: Sequence[Entry]) -> tuple[str, str, str]:
    mine, other = ("".join(_whole(one)[1] for one in entries) for entries in (ours, theirs))
    tops = [_text(entries[0].statement.above) if entries else "" for entries in (ours, theirs)]
    top = tops[0] if tops[0] == tops[1] else ""
    return top, mine[len(top) :], other[len(top) :]
