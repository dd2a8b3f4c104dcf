"""Giving the wires of a file other keys, and leaving all else that its block says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from matrixgen.fit.block import lines_text
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.statement_pieces import below, comments_alone, new_statement, rewritten
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.parts import WIRES
from matrixgen.source.tree import BlockTree, Piece, Statement, written
from matrixgen.source.tree_reader import tree_of


def with_lines(source: SourceText, lines: Sequence[NewLine], order: Mapping[str, int]) -> str:
    """Return a file's text with other wires in its block `wiring`.

    A wire that goes on keeps its place, its indentation and its comments; the comments of one that
    goes stay, on lines of their own; new ones stand after the last of their kind. All else stays as
    it was.
    """
    tree = tree_of(source)
    wires = _Wires(lines, order)
    blocks = [
        changed(block, statements=tuple(wires.put_into(block)))
        if block.header.rule == "wiring"
        else block
        for block in tree.blocks
    ]
    return written(changed(tree, blocks=tuple(blocks)))


class _Wires:
    """The wires of a file as they are to be."""

    def __init__(self, lines: Sequence[NewLine], order: Mapping[str, int]) -> None:
        self._lines = lines
        self._texts = dict(zip(lines, lines_text(lines, order), strict=True))
        self._goes_on = {line.was.span.line: line for line in lines if line.was}

    def put_into(self, block: BlockTree) -> Iterator[Statement]:
        """Yield the statements of the block `wiring`."""
        old = [one for one in block.statements if one.rule in WIRES]
        last = {one.rule: one for one in old}
        dropped: tuple[Piece, ...] = ()
        for statement in block.statements:
            if statement.rule not in WIRES:
                yield below(dropped, statement)
                dropped = ()
                continue
            line = self._goes_on.get(statement.line)
            if line:
                yield below(dropped, self._rewritten(statement, line))
                dropped = ()
            else:
                dropped = (*dropped, *statement.above, *comments_alone(statement))
            if statement is last[statement.rule]:
                yield from self._new(statement, last)
        if dropped:
            yield Statement(rule=None, line=0, above=(), pieces=dropped)

    def _new(self, like: Statement, last: Mapping[str | None, Statement]) -> Iterator[Statement]:
        """Yield the new wires of one kind, and of the other where the file has none of that."""
        for line in self._lines:
            home = line.axis if line.axis in last else like.rule
            if line.was is None and home == like.rule:
                yield new_statement(line.axis, self._texts[line], like)

    def _rewritten(self, statement: Statement, line: NewLine) -> Statement:
        """Return the statement of a wire with other words, and all its comments."""
        if line.is_as_it_was:
            return statement
        return rewritten(statement, self._texts[line])
