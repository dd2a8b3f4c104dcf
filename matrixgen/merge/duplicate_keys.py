"""Keys that both sides put on the plate, or moved, each to another line of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Sequence

from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.parts import joined
from matrixgen.record import changed


def each_key_once(context: MergeContext, entries: Sequence[Entry]) -> list[Entry]:
    """Return the statements of a plate with each key where the preferred side has it."""
    lines = [one for one in entries if one.statement.rule == "plate_line"]
    seen = Counter(key for one in lines for key in one.statement.named("KEY"))
    twice = {key for key, times in seen.items() if times > 1}
    return list(_without(context, entries, twice)) if twice else list(entries)


def _without(
    context: MergeContext, entries: Sequence[Entry], twice: Collection[str]
) -> Iterator[Entry]:
    """Yield the statements without those keys where they are not to be; no line without keys."""
    ids = context.line_ids[1 if context.prefer == "ours" else 2]
    home = dict(zip(ids, context.preferred.keys_of_lines, strict=True))
    for entry in entries:
        if entry.statement.rule != "plate_line":
            yield entry
            continue
        here = [key for key in entry.statement.named("KEY") if key in twice]
        for key in here:
            context.clash(entry.block, entry.id, f"key {key} on the plate")
        gone = {("key", key) for key in here if key not in home.get(entry.id, ())}
        left = [part for part in entry.statement.parts if part.id not in gone]
        statement = joined(entry.statement, left, entry.statement.tail)
        if statement.named("KEY"):
            yield changed(entry, statement=statement)
