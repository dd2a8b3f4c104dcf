"""Statements of a file with other words: their comments and their indentation stay."""

from __future__ import annotations

from matrixgen.format.wrap import INDENT
from matrixgen.record import changed
from matrixgen.source.tree import Piece, Statement


def new_statement(rule: str | None, text: str, like: Statement) -> Statement:
    """Return a statement that is set in, and whose lines end, as those of another one."""
    return Statement(rule=rule, line=0, above=(), pieces=_pieces(text, like))


def rewritten(statement: Statement, text: str) -> Statement:
    """Return a statement with other words, and all its comments."""
    comments = [piece for piece in statement.pieces if piece.kind == "comment"]
    gap, words, end = _pieces(text, statement)
    pieces = [gap, words]
    for number, comment in enumerate(comments):
        pieces += [end, gap, comment] if number else [Piece("gap", "  "), comment]
    return changed(statement, pieces=(*pieces, end))


def comments_alone(statement: Statement) -> tuple[Piece, ...]:
    """Return the comments in a statement, on lines of their own."""
    gap, end = Piece("gap", _indent(statement)), Piece("line end", _line_end(statement))
    comments = (piece for piece in statement.pieces if piece.kind == "comment")
    return tuple(piece for comment in comments for piece in (gap, comment, end))


def below(dropped: tuple[Piece, ...], statement: Statement) -> Statement:
    """Return a statement that has what stood above a dropped one above itself."""
    return changed(statement, above=(*dropped, *statement.above)) if dropped else statement


def _pieces(text: str, like: Statement) -> tuple[Piece, Piece, Piece]:
    end = _line_end(like)
    words = Piece("word", text.replace("\n", end))
    return Piece("gap", _indent(like)), words, Piece("line end", end)


def _indent(like: Statement) -> str:
    first = like.pieces[0]
    return first.text if first.kind == "gap" else INDENT


def _line_end(like: Statement) -> str:
    return next((piece.text for piece in like.pieces if piece.kind == "line end"), "\n")
