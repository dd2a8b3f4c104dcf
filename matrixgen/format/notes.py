"""Comments that have lines of their own, and the empty lines between them."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.stretches import comment_of, lines_of
from matrixgen.record import Record
from matrixgen.source.tree import Piece


class CommentLine(Record):
    """A line between two statements: a comment, or nothing."""

    text: str
    is_indented: bool


def notes_of(pieces: Sequence[Piece]) -> list[CommentLine]:
    """Return the lines between two statements, of several empty ones the first."""
    notes: list[CommentLine] = []
    for line in lines_of(pieces):
        text = comment_of(line)
        if text or not notes or notes[-1].text:
            notes.append(CommentLine(text, line[:1] != () and line[0].kind == "gap"))
    return notes


def parted(notes: Sequence[CommentLine]) -> tuple[list[CommentLine], list[CommentLine]]:
    """Return what belongs to the block above, and what to the one below.

    What is indented belongs to the block above, up to the first comment that is not.
    """
    own = [n for n, note in enumerate(notes) if note.text and not note.is_indented]
    end = own[0] if own else len(notes)
    return _without_last_gap(notes[:end]), list(notes[end:])


def without_first_gap(notes: Sequence[CommentLine]) -> list[CommentLine]:
    """Return lines without an empty one before the first comment."""
    return list(notes[1:] if notes and not notes[0].text else notes)


def _without_last_gap(notes: Sequence[CommentLine]) -> list[CommentLine]:
    return list(notes[:-1] if notes and not notes[-1].text else notes)
