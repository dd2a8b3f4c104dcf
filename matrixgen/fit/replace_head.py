"""Giving the block `wiring` other statements before its wires, and leaving all else as it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.fit.statement_pieces import below, comments_alone, new_statement, rewritten
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.tree import BlockTree, Piece, Statement, written
from matrixgen.source.tree_reader import tree_of

HEAD = ("drive", "diodes", "without", "reversed")
"""The rules of the statements before the wires, in their usual order."""


def with_head(source: SourceText, wanted: Mapping[str, str | None]) -> str:
    """Return a file's text with other statements before the wires; None is that there is none.

    A statement that goes on keeps its place and its comments; the comments of one that goes stay.
    What is not `wanted` otherwise stays as it is. The block must have a statement.
    """
    tree = tree_of(source)
    blocks = [
        changed(block, statements=tuple(_put_into(block, wanted)))
        if block.header.rule == "wiring"
        else block
        for block in tree.blocks
    ]
    return written(changed(tree, blocks=tuple(blocks)))


def _put_into(block: BlockTree, wanted: Mapping[str, str | None]) -> Iterator[Statement]:
    """Yield the statements of the block `wiring`."""
    new = {rule: wanted[rule] for rule in HEAD if wanted.get(rule)}
    like = block.statements[0]
    last = next((one for one in reversed(block.statements) if one.rule in HEAD), None)
    dropped: tuple[Piece, ...] = ()
    if last is None:
        yield from _added(new, like)
    for statement in block.statements:
        rule = statement.rule or ""
        if rule in wanted and rule not in new:  # it goes, or another of its kind says all
            dropped = (*dropped, *statement.above, *comments_alone(statement))
        else:
            text = new.pop(rule, None)
            yield below(dropped, rewritten(statement, text) if text else statement)
            dropped = ()
        if statement is last:
            yield from _added(new, like)
    if dropped:
        yield Statement(rule=None, line=0, above=(), pieces=dropped)


def _added(new: dict[str, str | None], like: Statement) -> Iterator[Statement]:
    """Yield those that the file does not have yet, and forget them."""
    while new:
        rule = next(iter(new))
        yield new_statement(rule, new.pop(rule) or "", like)
