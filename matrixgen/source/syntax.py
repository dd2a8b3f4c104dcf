"""What the parser makes of a text: words, and a tree of them by the grammar's rules.

These are what `lark.Token` and `lark.Tree` are, as far as a reader asks. Importing those takes
three times as long as an empty Python process does in all.
"""

from __future__ import annotations

from typing import TypeAlias


class Token(str):
    """A word or a sign of a text, or a line end, and where it begins.

    `type` is its terminal in the grammar. `line` and `column` are counted from 1, `start_pos`, the
    place in the text that was parsed, from 0.
    """

    __slots__ = ("column", "line", "start_pos", "type")

    type: str
    start_pos: int
    line: int
    column: int

    def __new__(cls, type: str, text: str, start_pos: int, line: int, column: int) -> Token:
        """Make a word of its terminal, its text and its place."""
        token = str.__new__(cls, text)
        token.type = type
        token.start_pos = start_pos
        token.line = line
        token.column = column
        return token

    @property
    def end_pos(self) -> int:
        """The place in the text after it."""
        return self.start_pos + len(self)

    @property
    def end_line(self) -> int:
        """The line on which it ends; a line feed ends on the next one."""
        return self.line + self.count("\n")

    @property
    def end_column(self) -> int:
        """The column after it."""
        return len(self) - self.rindex("\n") if "\n" in self else self.column + len(self)


class Tree:
    """A rule of the grammar, or its other name, and what stands where it was found.

    `first` and `last` are the words that it begins and ends with, among them those that are not
    kept as children; None in a tree of an empty text.
    """

    __slots__ = ("children", "data", "first", "last")

    def __init__(
        self, data: str, children: list[Token | Tree], first: Token | None, last: Token | None
    ) -> None:
        self.data = data
        self.children = children
        self.first = first
        self.last = last

    def __eq__(self, other: object) -> bool:
        """Whether both have the same words by the same rules, wherever they stand."""
        if not isinstance(other, Tree):
            return NotImplemented
        return self.data == other.data and self.children == other.children

    __hash__ = None  # type: ignore[assignment]  # its children are a list

    @property
    def line(self) -> int:
        """The line on which it begins; 0 where it has no words."""
        return self.first.line if self.first is not None else 0

    @property
    def column(self) -> int:
        """The column in which it begins."""
        return self.first.column if self.first is not None else 0

    @property
    def end_line(self) -> int:
        """The line on which it ends."""
        return self.last.end_line if self.last is not None else 0

    @property
    def end_column(self) -> int:
        """The column after it."""
        return self.last.end_column if self.last is not None else 0


Node: TypeAlias = Tree
