"""What the builders of all blocks share: places, findings, what a broken line took along."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.model.span import Number, SourceText, Span, Word
from matrixgen.source.limits import Limits
from matrixgen.source.problems import problem

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Mistake, Node

_PIECE = re.compile(r"[^\s:=,+#]+")
_NAME = re.compile(r"\w[\w-]*")


class Reading:
    """One file on its way to a keyboard. Findings are collected here, in any order."""

    def __init__(self, source: SourceText, limits: Limits, mistakes: Iterable[Mistake]) -> None:
        self.source = source
        self.path = source.path
        self.limits = limits
        self.findings: list[Diagnostic] = []
        self._dropped_names: set[str] = set()
        self._dropped_lines: set[int] = set()
        for mistake in mistakes:
            self._dropped_names.update(_PIECE.findall(mistake.dropped))
            self._dropped_names.update(_NAME.findall(mistake.dropped))  # of glued ones: `Q/W`
            length = mistake.dropped.count("\n") + 1
            self._dropped_lines.update(range(mistake.line, mistake.line + length))

    def report(
        self,
        slug: str,
        span: Span,
        message: str,
        *,
        help: str | None = None,
        notes: Iterable[Note] = (),
    ) -> None:
        """Add a finding of the kind `slug`."""
        self.findings.append(problem(slug).at(span, message, help=help, notes=notes))

    def was_dropped(self, name: str) -> bool:
        """Whether a line that could not be read has this name: it may well define it."""
        return name in self._dropped_names

    def lost_lines(self, span: Span) -> bool:
        """Whether a line that could not be read stands inside `span`, or right after it."""
        return not self._dropped_lines.isdisjoint(range(span.line, span.end_line + 2))

    @property
    def is_whole(self) -> bool:
        """Whether every line could be read."""
        return not self._dropped_lines

    def span(self, token: Token) -> Span:
        """Return where a token stands. No token but a line end is longer than a line."""
        line, column = token.line or 1, token.column or 1
        return Span(self.path, line, column, line, column + len(token))

    def part(self, token: Token, start: int, length: int) -> Span:
        """Return where a part of a token stands, from its letter number `start` (from 0) on."""
        line, column = token.line or 1, (token.column or 1) + start
        return Span(self.path, line, column, line, column + length)

    def word(self, token: Token) -> Word:
        """Return a token as a word of the model."""
        return Word(str(token), self.span(token))

    def text(self, token: Token) -> Word:
        """Return a token in quotes as the words between them."""
        return Word(token[1:-1] if token.startswith('"') else str(token), self.span(token))

    def number(self, token: Token) -> Number:
        """Return a token of digits as a number of the model."""
        return Number(float(token), self.span(token))

    def first_word(self) -> Span:
        """Return where the first word of the file stands; its first column if there is none."""
        for number, line in enumerate(self.source.lines, 1):
            found = _PIECE.match(line)
            if found:
                return Span(self.path, number, 1, number, 1 + len(found.group()))
        return Span(self.path, 1, 1, 1, 1)

    def whole(self, tree: Node) -> Span:
        """Return where a statement or a block stands, from its first word to its last."""
        meta = tree.meta
        return Span(self.path, meta.line, meta.column, meta.end_line, meta.end_column)

    def keyword(self, tree: Node, length: int) -> Span:
        """Return where the first `length` letters of a statement stand."""
        meta = tree.meta
        return Span(self.path, meta.line, meta.column, meta.line, meta.column + length)


def tokens(tree: Node) -> list[Token]:
    """Return the words of a statement, without the statements that it may hold."""
    return [child for child in tree.children if isinstance(child, str)]


def trees(tree: Node) -> list[Node]:
    """Return the statements that a block, or another statement, holds."""
    return [child for child in tree.children if not isinstance(child, str)]
