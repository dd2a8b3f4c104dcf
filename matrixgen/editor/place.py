"""Where a cursor stands: the word that is being written, its statement, and what may come there.

The parser tells it. It reads the block's first line and the statement up to the cursor, so that
mistakes anywhere else in the file make no difference.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from matrixgen.editor.positions import LineColumn
from matrixgen.model import SourceText, Span
from matrixgen.source.automaton import Automaton
from matrixgen.source.lexer import keys_lexer
from matrixgen.source.patterns import pattern
from matrixgen.source.statements import BLOCKS

PIECE = r'"(?:[^"\\]|\\.)*"?|#.*|[,=]|[^\s"#,=]+'
"""A text in quotes, a comment, a sign between words, or a word."""

NOTHING_TO_READ = "\0"
AFTER_IT = (NOTHING_TO_READ, "1", '"a"')
"""What the parser is shown at the cursor: some words are words of the language only before a number
or before a text."""

SIGNS = (",", "=")

TERMINALS = frozenset(one.name for one in keys_lexer().tables.terminals)


class Place:
    """A cursor in a text. `word` is what of a word stands before it, and `rest` what after it."""

    def __init__(self, source: SourceText, at: LineColumn) -> None:
        self.source, (self.line, self.column) = source, at
        text = source.line(self.line)
        self._before = text[: self.column - 1]
        pieces = list(pattern(PIECE).finditer(self._before))
        last = pieces[-1] if pieces and pieces[-1].end() == len(self._before) else None
        self.is_in_comment = bool(pieces) and pieces[-1].group().startswith("#")
        self.word = "" if last is None or last.group() in SIGNS else last.group()
        after = pattern(r"[^\s#,=]*").match(text, self.column - 1)
        self.rest = after.group() if after and not self.word.startswith('"') else ""

    @property
    def span(self) -> Span:
        """Where the word stands that is being written, up to the cursor."""
        start = self.column - len(self.word)
        return Span.in_line(self.source.path, self.line, start, len(self.word))

    @cached_property
    def first_line(self) -> int:
        """The line on which the statement begins."""
        line = self.line
        while line > 1 and pattern(r"[ \t]+and(?=[ \t])").match(self.source.line(line)):
            line -= 1
        return line

    @cached_property
    def header_line(self) -> int:
        """The line on which the block begins; 0 where there is none."""
        return self.source.header_of(self.line)

    @property
    def is_header(self) -> bool:
        """Whether the cursor is in the first line of a block, or where one may begin."""
        written = self._before[: len(self._before) - len(self.word)]
        return not written or self.header_line == self.first_line

    @property
    def block(self) -> str | None:
        """The word that the block begins with; None in the first line of one, or before any."""
        words = self.source.line(self.header_line).split()
        return words[0] if words and not self.is_header and words[0] in BLOCKS else None

    @cached_property
    def words_before(self) -> tuple[str, ...]:
        """The words and signs of the statement before the one that is being written."""
        lines = [self.source.line(n) for n in range(self.first_line, self.line)]
        lines.append(self._before[: len(self._before) - len(self.word)])
        return tuple(word for line in lines for word in words_of_line(line))

    @cached_property
    def expected(self) -> frozenset[str]:
        """The grammar's terminals that may come here; none where what is before does not fit."""
        return frozenset[str]().union(*self.expectations)

    @cached_property
    def expectations(self) -> tuple[frozenset[str], ...]:
        """The same, each for what the parser is shown at the cursor."""
        before = self._text_before()
        if before is None:
            return ()
        found = []
        for shown in AFTER_IT:
            reader = Automaton(before + shown, keys_lexer())
            if reader.read_to(len(before)):
                found.append(reader.expected() & TERMINALS)
        return tuple(dict.fromkeys(found))

    def is_read_with(self, words: Sequence[str]) -> bool:
        """Whether the statement can be read with these words at the cursor, to their end."""
        before = self._text_before()
        text = f"{before}{' '.join(words)}\n"
        return before is not None and Automaton(text, keys_lexer()).read_to(len(text))

    def _text_before(self) -> str | None:
        """Return what the parser is to read, up to the word that is being written."""
        words = " ".join(self.words_before)
        if self.is_header:
            return f"\n{words} " if words else "\n"
        lead = self._header()
        return None if lead is None else f"\n{lead}\n  {words} "

    def _header(self) -> str | None:
        """Return the block's first line: if it cannot be read, one of its kind that can be."""
        if self.block is None:
            return None
        line = self.source.line(self.header_line)
        return line if _is_readable(line) else BLOCKS[self.block].form


def words_of_line(line: str) -> list[str]:
    """Return the words and signs of a line, without the `and` that goes on with a statement."""
    words = [one.group() for one in pattern(PIECE).finditer(line)]
    kept = [word for word in words if not word.startswith("#")]
    return kept[1:] if kept[:1] == ["and"] and line[:1] in " \t" else kept


def _is_readable(header: str) -> bool:
    reader = Automaton(f"\n{header}\n  {NOTHING_TO_READ}", keys_lexer())
    return reader.read_to(len(header) + 4)
