"""Giving the block `wiring` other statements before its wires, and leaving all else as it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.fit.statement_pieces import going_on, new_statement, rewritten, with_wiring
from matrixgen.model.text import SourceText
from matrixgen.source.tree import BlockTree, Statement

HEAD = ("drive", "diodes", "without", "reversed")
"""The rules of the statements before the wires, in their usual order."""


def with_head(source: SourceText, wanted: Mapping[str, str | None]) -> str:
    """Return a file's text with other statements before the wires; None is that there is none.

    A statement that goes on keeps its place and its comments; the comments of one that goes stay.
    What is not `wanted` otherwise stays as it is. The block must have a statement.
    """
    return with_wiring(source, lambda block: _put_into(block, wanted))


def _put_into(block: BlockTree, wanted: Mapping[str, str | None]) -> Iterator[Statement]:
    """Yield the statements of the block `wiring`."""
    new = {rule: wanted[rule] for rule in HEAD if wanted.get(rule)}
    like = block.statements[0]
    last = next((one for one in reversed(block.statements) if one.rule in HEAD), None)

    def becomes(statement: Statement) -> Statement | None:
        rule = statement.rule or ""
        if rule in wanted and rule not in new:  # it goes, or another of its kind says all
            return None
        text = new.pop(rule, None)
        return rewritten(statement, text) if text else statement

    if last is None:
        yield from _added(new, like)
    yield from going_on(block, becomes, lambda one: _added(new, like) if one is last else ())


def _added(new: dict[str, str | None], like: Statement) -> Iterator[Statement]:
    """Yield those that the file does not have yet, and forget them."""
    while new:
        rule = next(iter(new))
        yield new_statement(rule, new.pop(rule) or "", like)
