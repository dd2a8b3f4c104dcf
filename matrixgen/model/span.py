"""Where in a text file something stands: every part of the model carries one."""

from __future__ import annotations

from functools import cached_property

from matrixgen.model.record import record


@record
class Span:
    """A stretch of one file. Lines and columns count from 1; the end column is exclusive.

    Columns count Unicode code points, as editors do.
    """

    path: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __lt__(self, other: Span) -> bool:
        """Whether this one comes first: by path, then by start, then by end."""
        mine = (self.path, self.line, self.column, self.end_line, self.end_column)
        return mine < (other.path, other.line, other.column, other.end_line, other.end_column)

    def to(self, other: Span) -> Span:
        """Return the span from this one's start to the end of `other`, in the same file."""
        return Span(self.path, self.line, self.column, other.end_line, other.end_column)


@record
class Word:
    """One word of the file, as it was typed, and where it stands."""

    text: str
    span: Span

    def __str__(self) -> str:
        return self.text


@record
class Number:
    """A number of the file; its unit is named by the field that holds it."""

    value: float
    span: Span


@record
class SourceText:
    """A file as it was read: the path the user gave, the text, the SHA-256 of its bytes.

    The text has no byte order mark, and each of its lines ends with a single line feed.
    """

    path: str
    text: str
    sha256: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """Every line, without its line end. There is always at least one."""
        return tuple(self.text.split("\n"))

    def line(self, number: int) -> str:
        """Return line `number`, counted from 1, without its line end; empty past the last one."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""
