"""A statement cut into stretches: what stands between two line ends, joined by `and`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.record import Record
from matrixgen.source.tree import Piece, Statement, words_in

KEEPS_BREAKS = frozenset({"plate_line", "picture_line"})
"""Statements in which a line end is the maker's: rows of cells are pictures to look at."""

TOUCHES = frozenset({"COMMA", "SIZE"})
"""Words with no blank before them, by the grammar's terminal."""


class Stretch(Record):
    """A line of a statement: its words, the comment after them, and comment lines above it."""

    words: tuple[Piece, ...]
    comment: str
    above: tuple[str, ...]


def stretches_of(statement: Statement) -> tuple[Stretch, ...]:
    """Return the lines of a statement, without the `and`s that join them.

    It is one stretch where no comment and no picture depends on its line ends.
    """
    stretches = tuple(_stretches(statement))
    if statement.rule in KEEPS_BREAKS or _has_inner_comments(stretches):
        return stretches
    words = tuple(word for stretch in stretches for word in stretch.words)
    return (Stretch(words, stretches[-1].comment, ()),)


def lines_of(pieces: Sequence[Piece]) -> Iterator[tuple[Piece, ...]]:
    """Yield the pieces of each line, without its line end."""
    line: list[Piece] = []
    for piece in pieces:
        if piece.kind == "line end":
            yield tuple(line)
            line = []
        else:
            line.append(piece)
    if line:
        yield tuple(line)


def comment_of(line: Sequence[Piece]) -> str:
    """Return the comment of a line, without the blanks after it, or an empty text."""
    return next((piece.text.rstrip(" \t") for piece in line if piece.kind == "comment"), "")


def spaced(words: Sequence[Piece]) -> str:
    """Return words with one blank between them, and none before a comma or a size."""
    texts = [f" {word.text}" if word.terminal not in TOUCHES else word.text for word in words]
    return "".join(texts).removeprefix(" ")


def _stretches(statement: Statement) -> Iterator[Stretch]:
    above: list[str] = []
    for line in lines_of(statement.pieces):
        words, comment = words_in(line), comment_of(line)
        if words:
            yield Stretch(words, comment, tuple(above))
            above = []
        elif comment:
            above.append(comment)


def _has_inner_comments(stretches: Sequence[Stretch]) -> bool:
    """Whether a comment stands anywhere but at the end."""
    return any(stretch.above for stretch in stretches) or any(
        stretch.comment for stretch in stretches[:-1]
    )
