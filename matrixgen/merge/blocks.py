"""A whole file in three versions, merged block by block."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.duplicate_keys import each_key_once
from matrixgen.merge.key_lists import with_runs
from matrixgen.merge.labels import block_label, statement_label
from matrixgen.merge.layer import ById, LayerMerge
from matrixgen.merge.places import place_ids, with_places
from matrixgen.merge.sets import with_sets
from matrixgen.merge.sides import statement_ids
from matrixgen.merge.statement import merged_statement
from matrixgen.merge.three_way import Id, Three, choose, in_order
from matrixgen.source.parts import PLACES
from matrixgen.source.tree import BlockTree, Statement

HEADER: Id = ("header",)
PLATE: Id = ("plate",)


def merged_entries(context: MergeContext) -> list[Entry]:
    """Return every statement of the merged file, in order; the plate is merged first."""
    named = [side.blocks if side else {} for side in context.sides]
    ids = dict.fromkeys([PLATE, *(id for blocks in named for id in blocks)])
    merged = {
        id: _block(context, id, (named[0].get(id), named[1].get(id), named[2].get(id)))
        for id in ids
    }
    order = in_order(
        (list(named[0]), list(named[1]), list(named[2])),
        [id for id, entries in merged.items() if entries],
        context.prefer,
        strict=False,
    )
    return [entry for id in order.ids for entry in merged[id]]


def _block(context: MergeContext, id: Id, blocks: Three[BlockTree]) -> list[Entry]:
    """Return the statements of a block; none if it is gone."""
    base, ours, theirs = blocks
    if ours is None or theirs is None:
        there = ours or theirs
        if there is None or _is_gone(context, id, blocks):
            return []
        blocks = (None, ours, theirs)  # all of it is what one side has
        return [Entry(id, HEADER, there.header), *_statements_of(context, id, blocks)]
    header = _statement(
        context, (id, HEADER), base.header if base else None, ours.header, theirs.header
    )
    return [Entry(id, HEADER, header), *_statements_of(context, id, blocks)]


def _statements_of(context: MergeContext, id: Id, blocks: Three[BlockTree]) -> list[Entry]:
    if isinstance(id, tuple) and id[0] == "layer":
        lines = LayerMerge(context, id, blocks).entries()
        return with_sets(
            context, id, blocks, lines, lambda one, sets: _one(context, (id, one), sets)
        )
    if id == PLATE:
        return _plate(context, blocks)
    base, ours, theirs = (statement_ids(one.statements) if one else {} for one in blocks)
    return _statements(context, id, (base, ours, theirs), strict=False)


def _is_gone(context: MergeContext, id: Id, blocks: Three[BlockTree]) -> bool:
    """Whether a block that one side does not have is not to be there."""
    if blocks[0] is None:
        return False
    choice = choose([_said(one) if one else None for one in blocks], context.prefer)
    if choice.is_clash:
        context.clash(id, HEADER, block_label(id))
    return blocks[1 if choice.side == "ours" else 2] is None


def _said(block: BlockTree) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Return the words and comments of a block."""
    return [(one.words, one.comments) for one in (block.header, *block.statements)]


def _plate(context: MergeContext, blocks: Three[BlockTree]) -> list[Entry]:
    """Return the statements of the plate, and keep the keys of its lines for all else."""
    base, ours, theirs = (
        _plate_ids(one.statements, ids, blocks[0]) if one else {}
        for one, ids in zip(blocks, context.line_ids, strict=True)
    )
    entries = each_key_once(context, _statements(context, PLATE, (base, ours, theirs), strict=True))
    context.plate = [
        (one.id, tuple(one.statement.named("KEY")))
        for one in entries
        if one.statement.rule == "plate_line"
    ]
    return entries


def _plate_ids(
    statements: Sequence[Statement], line_ids: Sequence[Id], base: BlockTree | None
) -> dict[Id, Statement]:
    """Return the statements of a plate by name."""
    others = [one for one in statements if one.rule not in ("plate_line", *PLACES)]
    places = iter(place_ids(base.statements if base else (), statements))
    names = {"plate_line": iter(line_ids), **dict.fromkeys(PLACES, places)}
    clusters = iter(statement_ids(others))
    return {next(names.get(one.rule or "", clusters)): one for one in statements}


def _statements(
    context: MergeContext, block: Id, versions: tuple[ById, ById, ById], *, strict: bool
) -> list[Entry]:
    """Return the statements that both sides want in a block."""
    base, ours, theirs = versions
    kept: dict[Id, Statement] = {}
    for id in dict.fromkeys((*ours, *theirs, *base)):
        one = _one(context, (block, id), (base.get(id), ours.get(id), theirs.get(id)))
        if one:
            kept[id] = one
    placed = [id for id, one in kept.items() if one.rule in PLACES]
    first, second, third = ([id for id in one if id not in placed] for one in versions)
    order = in_order((first, second, third), kept.keys() - placed, context.prefer, strict=strict)
    for id in order.clashes:
        there = ours.get(id) or theirs[id]
        context.clash(block, id, statement_label(block, there, None))
    in_all = with_places(order.ids, (list(ours), list(theirs)), placed) if placed else order.ids
    return [Entry(block, id, kept[id]) for id in in_all]


def _one(
    context: MergeContext,
    place: tuple[Id, Id],
    versions: Three[Statement],
) -> Statement | None:
    """Return a statement of a block, or None where it is gone."""
    base, ours, theirs = versions
    if ours and theirs:
        return _statement(context, place, base, ours, theirs)
    said = [(one.words, one.comments) if one else None for one in versions]
    choice = choose(said, context.prefer)
    there = ours or theirs
    if choice.is_clash and there:
        context.clash(*place, statement_label(place[0], there, None))
    mine = ours if choice.side == "ours" else theirs
    alone = (None, ours, None) if mine is ours else (None, None, theirs)
    return mine and with_runs(context, mine, alone)


def _statement(
    context: MergeContext,
    place: tuple[Id, Id],
    base: Statement | None,
    ours: Statement,
    theirs: Statement,
) -> Statement:
    """Return a statement that both sides have."""
    merged = merged_statement(base, ours, theirs, context.prefer)
    context.clash_in(*place, merged.statement, merged.clashes)
    return with_runs(context, merged.statement, (base, ours, theirs))
