"""What the readers of all blocks share: places, findings, what a broken line took along."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Diagnostic, Fix, Note
from matrixgen.model.prose import spaced
from matrixgen.model.text import Number, SourceText, Span, Word
from matrixgen.similar import similar_help
from matrixgen.source.limits import Limits
from matrixgen.source.patterns import pattern
from matrixgen.source.problems import problem

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.syntax import Node, Token

_PIECE = r"[^\s:=,+#]+"
_SAID = r'"(?:[^"\\]|\\.)*"|#.*|[^\s#"]+'
"""A text in quotes, a comment, or a word."""
_NAME = r"\w[\w-]*"


class ReadingEnds(Exception):
    """Raised after a finding that says of a file that what follows is not read."""


class Reporter:
    """One file on its way to a design. Findings are collected here, in any order."""

    def __init__(self, source: SourceText, limits: Limits, mistakes: Iterable[Mistake]) -> None:
        self.source = source
        self.path = source.path
        self.limits = limits
        self.findings: list[Diagnostic] = []
        self._searches_left = limits.similar_names
        self._dropped_names: set[str] = set()
        self._dropped_lines: set[int] = set()
        for mistake in mistakes:
            self._dropped_names.update(pattern(_PIECE).findall(mistake.dropped))
            self._dropped_names.update(pattern(_NAME).findall(mistake.dropped))  # of glued: `Q/W`
            first, length = mistake.first_line, mistake.dropped.count("\n") + 1
            self._dropped_lines.update(range(first, first + length))

    def report(
        self,
        slug: str,
        span: Span,
        message: str,
        *,
        help: str | Iterable[str] | None = None,
        notes: Iterable[Note] = (),
        about: Iterable[str] = (),
        fix: Fix | None = None,
    ) -> None:
        """Add a finding of the kind `slug`."""
        if len(self.findings) >= self.limits.findings:
            message = f"a file may have {self.limits.findings} findings; what follows is not read"
            self.findings.append(problem("over-the-limit").at(span, message))
            raise ReadingEnds
        found = problem(slug).at(span, message, help=help, notes=notes, about=about, fix=fix)
        self.findings.append(found)

    def may_search(self) -> bool:
        """Whether one more name may be looked for that is like a misspelt one: that takes time."""
        self._searches_left -= 1
        return self._searches_left >= 0

    def similar_help(self, word: str, known: Iterable[str]) -> str | None:
        """Return the help that offers a similar name, if there is one and it may be looked for."""
        return similar_help(word, known) if self.may_search() else None

    def was_dropped(self, name: str) -> bool:
        """Whether a line that could not be read has this name: it may well define it."""
        return name in self._dropped_names

    def drop(self, name: str) -> None:
        """Say no more of a name: what is wrong with it has been reported."""
        self._dropped_names.add(name)

    def lost_lines(self, span: Span) -> bool:
        """Whether a line that could not be read stands inside `span`, or right after it."""
        return not self._dropped_lines.isdisjoint(range(span.line, span.end_line + 2))

    @property
    def is_whole(self) -> bool:
        """Whether every line could be read."""
        return not self._dropped_lines

    @property
    def is_clean(self) -> bool:
        """Whether every line could be read, and nothing was found so far."""
        return not self.findings and self.is_whole

    def span(self, token: Token) -> Span:
        """Return where a token stands. No token but a line end is longer than a line."""
        return Span.in_line(self.path, token.line or 1, token.column or 1, len(token))

    def part(self, token: Token, start: int, length: int) -> Span:
        """Return where a part of a token stands, from its letter number `start` (from 0) on."""
        return Span.in_line(self.path, token.line or 1, (token.column or 1) + start, length)

    def word(self, token: Token) -> Word:
        """Return a token as a word of the model."""
        return Word(str(token), self.span(token))

    def text(self, token: Token) -> Word:
        """Return a token in quotes as the words between; a quote or backslash may have one more."""
        if not token.startswith('"'):
            return self.word(token)
        inside = token[1:-1]
        if "\\" in inside:
            inside = pattern(r'\\(["\\])').sub(r"\1", inside)
        return Word(inside, self.span(token))

    def number(self, token: Token) -> Number:
        """Return a token of digits as a number of the model."""
        return Number(float(token), self.span(token))

    def number_in(self, token: Token, least: float, most: float, what: str) -> Number:
        """Return a token of digits as a number; report one that is out of its range."""
        number = self.number(token)
        self.in_range(number.value, least, most, number.span, what)
        return number

    def in_range(self, value: float, least: float, most: float, span: Span, what: str) -> bool:
        """Whether a number is in its range; report it where it is not."""
        if least <= value <= most:
            return True
        message = f"{what} is {value:g}; it must be from {least:g} to {most:g}"
        self.report("number-out-of-range", span, message)
        return False

    def is_whole_in(self, number: Number, least: int, most: int, what: str) -> bool:
        """Whether a number is whole and in its range; report it where it is not."""
        if not self.in_range(number.value, least, most, number.span, what):
            return False
        if number.value % 1:
            message = f"{what} is {number.value:g}; it must be a whole number"
            self.report("number-out-of-range", number.span, message)
        return number.value % 1 == 0

    def at_most(
        self, most: int, spans: Sequence[Span], what: str, whose: str, help: str | None = None
    ) -> bool:
        """Whether something has no more of a kind than it may; report the first one too many."""
        if len(spans) > most:
            message = f"this is {what} number {most + 1}; {whose} has at most {most}"
            self.report("over-the-limit", spans[most], message, help=help)
        return len(spans) <= most

    def said(self, span: Span) -> tuple[str, ...]:
        """Return the words of a statement or a part of one, however spaced and joined by `and`."""
        lines = self.source.lines[span.line - 1 : span.end_line]
        lines = (*lines[:-1], lines[-1][: span.end_column - 1])
        lines = (lines[0][span.column - 1 :], *lines[1:])
        words = [pattern(_SAID).findall(line) for line in lines]
        words = [[word for word in line if word[0] != "#"] for line in words]
        joined = [words[0], *(line[1:] for line in words[1:])]
        return tuple(word for line in joined for word in line)

    def written(self, cell: Token | Node) -> Word:
        """Return a cell or a phrase as the file has it, with one blank between two words."""
        if isinstance(cell, str):
            return self.word(cell)
        span = self.whole(cell)
        return Word(spaced(" ".join(self.said(span))), span)

    def first_word(self) -> Span:
        """Return where the first word of the file stands; its first column if there is none."""
        for number, line in enumerate(self.source.lines, 1):
            if line and line[0] not in " \t#":
                words = line.split() or [line]
                return Span.in_line(self.path, number, 1, len(words[0]))
        return Span.start_of(self.path)

    def whole(self, tree: Node) -> Span:
        """Return where a statement or a block stands, from its first word to its last."""
        start, end = (tree.line, tree.column), (tree.end_line, tree.end_column)
        return Span.over(self.path, start, end)

    def keyword(self, tree: Node, length: int) -> Span:
        """Return where the first `length` letters of a statement stand."""
        return Span.in_line(self.path, tree.line, tree.column, length)


def tokens(tree: Node, kind: str | None = None) -> list[Token]:
    """Return the words of a statement, or those of one terminal, without those of its parts."""
    words = [child for child in tree.children if isinstance(child, str)]
    return words if kind is None else [word for word in words if word.type == kind]


def every_token(tree: Node) -> list[Token]:
    """Return the words of a statement and of all its parts, in order."""
    each = ([one] if isinstance(one, str) else every_token(one) for one in tree.children)
    return [token for some in each for token in some]


def trees(tree: Node) -> list[Node]:
    """Return the statements that a block, or another statement, holds."""
    return [child for child in tree.children if not isinstance(child, str)]
