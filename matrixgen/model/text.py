"""Places in a text file: every part of the model carries one."""

from __future__ import annotations

from functools import cached_property

from matrixgen.record import Record

BYTE_ORDER_MARK = "\ufeff"


class Span(Record, kw_only=True):
    """A stretch of one file. Lines and columns count from 1; the end column is exclusive.

    Columns count Unicode code points, as editors do.
    """

    path: str
    line: int
    column: int
    end_line: int
    end_column: int

    @staticmethod
    def over(path: str, start: tuple[int, int], end: tuple[int, int]) -> Span:
        """Return the span from one line and column to another."""
        line, column = start
        end_line, end_column = end
        return Span(path=path, line=line, column=column, end_line=end_line, end_column=end_column)

    @staticmethod
    def in_line(path: str, line: int, column: int, length: int) -> Span:
        """Return a span of `length` letters in one line."""
        return Span(path=path, line=line, column=column, end_line=line, end_column=column + length)

    @staticmethod
    def start_of(path: str) -> Span:
        """Return the empty span at the start of a file."""
        return Span.in_line(path, 1, 1, 0)

    @property
    def start(self) -> tuple[int, int]:
        """The line and column of its first letter."""
        return self.line, self.column

    @property
    def end(self) -> tuple[int, int]:
        """The line and column after its last letter."""
        return self.end_line, self.end_column

    def __lt__(self, other: Span) -> bool:
        """Whether this one comes first: by path, then by start, then by end."""
        return (self.path, self.start, self.end) < (other.path, other.start, other.end)

    def to(self, other: Span) -> Span:
        """Return the span from this one's start to the end of `other`, in the same file."""
        return Span.over(self.path, self.start, other.end)

    def holds(self, other: Span) -> bool:
        """Whether `other` lies inside this one, in the same file."""
        return self.path == other.path and self.start <= other.start and other.end <= self.end


class Word(Record):
    """What stands at a place of the file, as it was typed."""

    text: str
    span: Span

    def __str__(self) -> str:
        return self.text


class Number(Record):
    """A number of the file; its unit is named by the field that holds it."""

    value: float
    span: Span


class Edit(Record):
    """One change to a text: `text` stands where `span` stood. An empty span is an insertion."""

    span: Span
    text: str

    @staticmethod
    def removing_lines(span: Span) -> Edit:
        """Return the edit that takes out every line that a span touches, line end and all."""
        start = Span.in_line(span.path, span.line, 1, 0)
        return Edit(start.to(Span.in_line(span.path, span.end_line + 1, 1, 0)), "")


class SourceText(Record):
    """A file as it was read: the path the user gave, and the text, byte order mark and all."""

    path: str
    original: str

    @cached_property
    def text(self) -> str:
        """The text without a byte order mark, each line ended by a single line feed."""
        return self.original.removeprefix(BYTE_ORDER_MARK).replace("\r\n", "\n").replace("\r", "\n")

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """Every line, without its line end. There is always at least one."""
        return tuple(self.text.split("\n"))

    @property
    def end(self) -> tuple[int, int]:
        """The line and column after its last letter."""
        return len(self.lines), len(self.lines[-1]) + 1

    def line(self, number: int) -> str:
        """Return line `number`, counted from 1, without its line end; empty past the last one."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def header_of(self, number: int) -> int:
        """Return the number of the line that opens the block of a line, or itself; 0 for none."""
        lines = range(number, 0, -1)
        return next((n for n in lines if self.line(n)[:1] not in ("", " ", "\t", "#")), 0)

    @cached_property
    def sha256(self) -> str:
        """The SHA-256 of the file's bytes, in hexadecimal."""
        import hashlib  # only a build needs it, and it is slow to import

        return hashlib.sha256(self.original.encode("utf-8")).hexdigest()
