"""A file as a tree that keeps every letter: blocks, their statements, and what stands between.

Lark says what each statement is; here its words, gaps and comments are in their places as well, so
that a program can change one word, or the gaps alone, and write the file back. Text that could not
be read is a statement like any other, without a rule.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from functools import cached_property
from itertools import groupby
from typing import Literal

from matrixgen.record import Record
from matrixgen.source.parts import PartId

PieceKind = Literal["word", "joint", "gap", "comment", "line end"]


class Piece(Record):
    """A word, the blanks between two, a comment without its line end, or a line end.

    The `and` that joins a line to the one above is a joint, and no word. A word that was read has
    the name that the grammar has for it, its terminal, and that of the part that it belongs to.
    """

    kind: PieceKind
    text: str
    terminal: str = ""
    part: PartId = ()


class Part(Record):
    """Some words of a statement, by name. `lead` is what stands before, back to the last word."""

    id: PartId
    lead: tuple[Piece, ...]
    text: tuple[Piece, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Its words."""
        return tuple(piece.text for piece in words_in(self.text))


class Statement(Record, kw_only=True):
    """A line of a block, or several joined by `and`, with all that stands above it.

    `rule` is the grammar's, and None for text that could not be read. `line` is the number of its
    first line. `above` are the comments and empty lines before it and `pieces` its own text, from
    its indentation to its last line end; either may hold comments.
    """

    rule: str | None
    line: int
    above: tuple[Piece, ...]
    pieces: tuple[Piece, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Its words."""
        return tuple(piece.text for piece in words_in(self.pieces))

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Its parts, each from its first word to its last."""
        places = (place for place, piece in enumerate(self.pieces) if piece.kind == "word")
        parts, end = [], 0
        for id, grouped in groupby(places, lambda place: self.pieces[place].part):
            first, *others = grouped
            last = others[-1] if others else first
            parts.append(Part(id, self.pieces[end:first], self.pieces[first : last + 1]))
            end = last + 1
        return tuple(parts)

    def part(self, id: Hashable) -> Part | None:
        """Return the part of that name, if there is one."""
        return next((part for part in self.parts if part.id == id), None)

    @property
    def tail(self) -> tuple[Piece, ...]:
        """What follows its last word."""
        last = max(place for place, piece in enumerate(self.pieces) if piece.kind == "word")
        return self.pieces[last + 1 :]

    @property
    def last_line(self) -> int:
        """The number of its last line."""
        return self.line + sum(piece.kind == "line end" for piece in self.pieces[:-1])

    def named(self, terminal: str) -> list[str]:
        """Return its words of a terminal."""
        return [piece.text for piece in self.pieces if piece.terminal == terminal]

    @property
    def comments(self) -> tuple[str, ...]:
        """Every comment above it and in it."""
        return tuple(p.text for p in (*self.above, *self.pieces) if p.kind == "comment")


class BlockTree(Record):
    """A block: its first line, and the lines that belong to it."""

    header: Statement
    statements: tuple[Statement, ...]

    @property
    def last(self) -> Statement:
        """Its last line, which is the first one if there are no others."""
        return (self.header, *self.statements)[-1]


class FileTree(Record):
    """A whole file: its byte order mark or nothing, its blocks, and what follows the last one.

    `loose` are indented lines before the first block.
    """

    mark: str
    loose: tuple[Statement, ...]
    blocks: tuple[BlockTree, ...]
    below: tuple[Piece, ...]


def written(tree: FileTree) -> str:
    """Return the text of a tree: for one that was not changed, the file's own, letter by letter."""
    return "".join([tree.mark, *(piece.text for piece in every_piece(tree))])


def words_in(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Return the words among some pieces."""
    return tuple(piece for piece in pieces if piece.kind == "word")


def placed(pieces: Iterable[Piece], line: int = 1) -> Iterator[tuple[Piece, int, int]]:
    """Yield pieces that begin with a line, each with its own line and column."""
    column = 1
    for piece in pieces:
        yield piece, line, column
        is_end = piece.kind == "line end"
        line, column = (line + 1, 1) if is_end else (line, column + len(piece.text))


def every_statement(tree: FileTree) -> Iterator[Statement]:
    """Yield each statement of a file, headers of blocks included, in order."""
    yield from tree.loose
    for block in tree.blocks:
        yield block.header
        yield from block.statements


def every_piece(tree: FileTree) -> Iterator[Piece]:
    """Yield all that a file has but its byte order mark, in order."""
    for statement in every_statement(tree):
        yield from statement.above
        yield from statement.pieces
    yield from tree.below
