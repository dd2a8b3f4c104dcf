"""Giving the wires of a file other keys, and leaving all else that its block says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from matrixgen.fit.block import lines_text
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.statement_pieces import going_on, new_statement, rewritten, with_wiring
from matrixgen.model.text import SourceText
from matrixgen.source.parts import WIRES
from matrixgen.source.tree import BlockTree, Statement


def with_lines(source: SourceText, lines: Sequence[NewLine], order: Mapping[str, int]) -> str:
    """Return a file's text with other wires in its block `wiring`.

    A wire that goes on keeps its place, its indentation and its comments; the comments of one that
    goes stay, on lines of their own; new ones stand after the last of their kind. All else stays as
    it was.
    """
    return with_wiring(source, _Wires(lines, order).put_into)


class _Wires:
    """The wires of a file as they are to be."""

    def __init__(self, lines: Sequence[NewLine], order: Mapping[str, int]) -> None:
        self._lines = lines
        self._texts = dict(zip(lines, lines_text(lines, order), strict=True))
        self._goes_on = {line.was.span.line: line for line in lines if line.was}

    def put_into(self, block: BlockTree) -> Iterator[Statement]:
        """Yield the statements of the block `wiring`."""
        wires = (one for one in block.statements if one.rule in WIRES)
        last: dict[str | None, Statement] = {one.rule: one for one in wires}
        return going_on(
            block,
            self._becomes,
            lambda one: self._new(one, last) if one is last.get(one.rule) else (),
        )

    def _becomes(self, statement: Statement) -> Statement | None:
        """Return a wire with other words, and all its comments; None if it goes."""
        if statement.rule not in WIRES:
            return statement
        line = self._goes_on.get(statement.line)
        if line is None or line.is_as_it_was:
            return statement if line else None
        return rewritten(statement, self._texts[line])

    def _new(self, like: Statement, last: Mapping[str | None, Statement]) -> Iterator[Statement]:
        """Yield the new wires of one kind, and of the other where the file has none of that."""
        for line in self._lines:
            home = line.axis if line.axis in last else like.rule
            if line.was is None and home == like.rule:
                yield new_statement(line.axis, self._texts[line], like)
