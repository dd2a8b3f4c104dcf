"""A statement cut into parts: what stands between two line ends, joined by `and`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from matrixgen.record import Record
from matrixgen.source.parser import pattern
from matrixgen.source.tree import Piece, Statement

KEEPS_BREAKS = frozenset({"plate_line", "picture_line", "entries"})
"""Statements in which a line end is the maker's: rows of cells are pictures to look at."""

HAS_UNIT = frozenset({"debounce", "settle", "once_lasts"})
"""Statements of a number and its unit, which may touch."""

HAS_PHRASE = frozenset({"action", "entries"})
"""Statements in which a phrase may have times, behind a comma and one of `TIMED`."""

TIMED = ("after", "roll")


class Part(Record):
    """A line of a statement: its words, the comment after them, and comment lines above it."""

    words: tuple[str, ...]
    comment: str
    above: tuple[str, ...]


def parts_of(statement: Statement) -> tuple[Part, ...]:
    """Return the lines of a statement, without the `and`s that join them.

    It is one part where no comment and no picture depends on its line ends.
    """
    parts = tuple(_parts(statement))
    if statement.rule in KEEPS_BREAKS or _has_inner_comments(parts):
        return parts
    words = tuple(word for part in parts for word in part.words)
    return (Part(glued(words), parts[-1].comment, ()),)


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


def spaced(words: Sequence[str]) -> str:
    """Return words with one blank between them, and none before a comma."""
    if not words:
        return ""
    gaps = ("" if after == "," else " " for _, after in pairwise(words))
    return words[0] + "".join(gap + word for gap, word in zip(gaps, words[1:], strict=True))


def _parts(statement: Statement) -> Iterator[Part]:
    above: list[str] = []
    is_first = True
    for line in lines_of(statement.pieces):
        words = [piece.text for piece in line if piece.kind == "word"]
        if statement.rule in HAS_UNIT:
            words = list(_with_units_apart(words))
        elif statement.rule in HAS_PHRASE and "," in words:
            words = list(_with_times_apart(words))
        comment = comment_of(line)
        if words:
            yield Part(glued(words if is_first else words[1:]), comment, tuple(above))
            above, is_first = [], False
        elif comment:
            above.append(comment)


def glued(words: Sequence[str]) -> tuple[str, ...]:
    """Return words with each size right behind its key: `A :1.5` is `A:1.5`."""
    glued: list[str] = []
    for word in words:
        if glued and word.startswith(":"):
            glued[-1] += word
        else:
            glued.append(word)
    return tuple(glued)


def _with_units_apart(words: Sequence[str]) -> Iterator[str]:
    """Yield words with each unit apart from its number: `5ms` is `5 ms`."""
    for word in words:
        found = pattern(r"(-?[\d.]+)(\D+)").fullmatch(word)
        yield from found.groups() if found else (word,)


def _with_times_apart(words: Sequence[str]) -> Iterator[str]:
    """Yield words with `after 180ms` as `after 180 ms`; `180ms` may be a name anywhere else."""
    for place, word in enumerate(words):
        is_time = place > 1 and words[place - 1] in TIMED and words[place - 2] == ","
        yield from _with_units_apart((word,)) if is_time else (word,)


def _has_inner_comments(parts: Sequence[Part]) -> bool:
    """Whether a comment stands anywhere but at the end."""
    return any(part.above for part in parts) or any(part.comment for part in parts[:-1])
