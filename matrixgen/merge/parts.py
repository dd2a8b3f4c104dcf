"""Statements put together from parts of several versions of them, and which parts are keys."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.record import changed
from matrixgen.source.parts import KEYS
from matrixgen.source.tree import Part, Piece, Statement


def has_run(statement: Statement | None) -> bool:
    """Whether there is a run among the keys of a statement."""
    return statement is not None and any(part.id == KEYS for part in statement.parts)


def keys_as_one(statement: Statement) -> Statement:
    """Return a statement of which all keys are one part."""
    pieces = (
        changed(piece, part=KEYS) if piece.part[:1] == ("key",) else piece
        for piece in statement.pieces
    )
    return changed(statement, pieces=tuple(pieces))


def joined(frame: Statement, parts: Sequence[Part], tail: Sequence[Piece]) -> Statement:
    """Return a statement made of parts."""
    pieces = [piece for part in parts for piece in (*part.lead, *part.text)]
    return changed(frame, pieces=(*pieces, *tail))
