"""The sets of keys of a layer in three versions, and their places between its lines."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from matrixgen.merge.cells import TOGETHER, frame_of
from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.labels import block_label
from matrixgen.merge.three_way import Id, Three, in_order, place_behind
from matrixgen.source.tree import BlockTree, Statement

Merge = Callable[[Id, Three[Statement]], Statement | None]
"""Merges a statement of the layer in three versions, by its name."""


def with_sets(
    context: MergeContext, block: Id, blocks: Three[BlockTree], lines: Sequence[Entry], merge: Merge
) -> list[Entry]:
    """Return the lines of a merged layer with its sets, where the sides have them."""
    versions = [_sets_of(one) if one else {} for one in blocks]
    if not any(versions):
        return list(lines)
    base, ours, theirs = versions
    kept: dict[Id, Statement] = {}
    for id in dict.fromkeys((*ours, *theirs)):
        merged = merge(id, (base.get(id), ours.get(id), theirs.get(id)))
        if merged and _is_on_plate(context, block, id, merged):
            kept[id] = merged
    return _woven(context, block, blocks, lines, kept)


def keys_of(statement: Statement) -> tuple[str, ...]:
    """Return the keys of a set, in the order of their names."""
    return tuple(sorted(statement.named("KEY")))


def _id(statement: Statement) -> Id:
    return (TOGETHER, *keys_of(statement))


def _sets_of(block: BlockTree) -> dict[Id, Statement]:
    return {_id(one): one for one in block.statements if one.rule == TOGETHER}


def _is_on_plate(context: MergeContext, block: Id, id: Id, statement: Statement) -> bool:
    """Whether the preferred side has all keys of a set; it is kept if the plate lacks one."""
    keys = set(keys_of(statement))
    if not keys <= context.order.keys():
        label = f"keys {' '.join(sorted(keys))} together on {block_label(block)}"
        context.clash(block, id, label)
    return keys <= context.preferred.order.keys() | context.order.keys()


def _woven(
    context: MergeContext,
    block: Id,
    blocks: Three[BlockTree],
    lines: Sequence[Entry],
    kept: dict[Id, Statement],
) -> list[Entry]:
    """Return lines and sets, each set behind the nearest line or set that it stood behind."""
    made = {entry.id: entry for entry in lines}
    made |= {id: Entry(block, id, statement) for id, statement in kept.items()}
    orders = [list(_ids(context, number, one)) if one else [] for number, one in enumerate(blocks)]
    wanted = in_order((orders[0], orders[1], orders[2]), made.keys(), context.prefer, strict=False)
    found = [entry.id for entry in lines]
    for id in wanted.ids:
        if id in kept:
            found.insert(place_behind(id, wanted.ids, found), id)
    return [made[id] for id in found]


def _ids(context: MergeContext, number: int, block: BlockTree) -> Iterator[Id]:
    """Yield the names of a layer's lines and sets, in the order of one side."""
    side = context.sides[number]
    frame = frame_of(block.statements, side.keys_of_lines if side else ())
    rows = iter(context.line_ids[number])
    keys = iter(frame.as_list.keys if frame.as_list else ())
    for statement in block.statements:
        if statement.rule == TOGETHER:
            yield _id(statement)
        elif statement.rule == "picture_line":
            yield ("row", next(rows))
        else:
            yield ("cells", next(keys)[0])
