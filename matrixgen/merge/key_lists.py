"""Lists of keys in which runs stand: a run means other keys on the merged plate."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.merge.context import MergeContext
from matrixgen.merge.parts import has_run, joined, keys_as_one
from matrixgen.merge.sides import Version, expanded, key_words
from matrixgen.merge.three_way import Three, in_order
from matrixgen.model.runs import in_runs
from matrixgen.record import changed
from matrixgen.source.parts import KEYS
from matrixgen.source.tree import Part, Piece, Statement


def with_runs(context: MergeContext, merged: Statement, versions: Three[Statement]) -> Statement:
    """Return a list of keys whose words, on the merged plate, are the keys that both sides mean.

    `versions` has the statement in base, ours and theirs; None where it is not there.
    """
    lists = [key_words(one) for one in versions]
    if not any(map(has_run, versions)):
        return merged
    meant = _meant(context, [_keys(*one) for one in zip(lists, context.sides, strict=True)])
    if meant is None:
        return merged
    order = context.order
    meant = tuple(key for key in meant if key in order)
    for words in (key_words(merged), lists[1], lists[2]):
        if words and expanded(words, order) == meant:
            return _with_words(merged, words)
    return _with_words(merged, [word for run in in_runs(meant, order) for word in run.split()])


def _keys(words: Sequence[str], side: Version | None) -> tuple[str, ...] | None:
    return expanded(words, side.order) if side else ()


def _meant(
    context: MergeContext, lists: Sequence[tuple[str, ...] | None]
) -> tuple[str, ...] | None:
    """Return the keys that both sides want; None where a run names what is on no plate."""
    base, ours, theirs = lists
    if base is None or ours is None or theirs is None:
        return None
    if not base and not (ours and theirs):
        return ours or theirs  # one side alone has the statement
    kept = [
        key
        for key in dict.fromkeys((*ours, *theirs, *base))
        if _stays(key in base, key in ours, key in theirs)
    ]
    order = in_order((base, ours, theirs), kept, context.prefer, strict=False)
    return tuple(str(key) for key in order.ids)


def _stays(in_base: bool, in_ours: bool, in_theirs: bool) -> bool:
    """Whether a key stays in a list: one side may have put it in, or taken it out."""
    return (in_ours and in_theirs) if in_base else (in_ours or in_theirs)


def _with_words(statement: Statement, words: Sequence[str]) -> Statement:
    """Return a list with other keys, one blank between two."""
    if tuple(words) == key_words(statement):
        return statement
    statement = keys_as_one(statement)
    new = tuple(
        Piece("gap", " ") if n % 2 else Piece("word", words[n // 2], "KEY", KEYS)
        for n in range(2 * len(words) - 1)
    )
    *others, last = statement.parts
    if last.id != KEYS:
        others, last = [*others, last], Part(KEYS, (Piece("gap", " "),), ())
    keys = [changed(last, text=new)] if new else []
    return joined(statement, [*others, *keys], statement.tail)
