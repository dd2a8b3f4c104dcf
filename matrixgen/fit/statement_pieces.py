"""Statements of the block `wiring` with other words: comments and indentation stay."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from matrixgen.format.wrap import INDENT
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.tree import BlockTree, Piece, Statement, written
from matrixgen.source.tree_reader import tree_of


def with_wiring(source: SourceText, put_into: Callable[[BlockTree], Iterable[Statement]]) -> str:
    """Return a file's text with other statements in its block `wiring`."""
    tree = tree_of(source)
    blocks = (
        changed(block, statements=tuple(put_into(block)))
        if block.header.rule == "wiring"
        else block
        for block in tree.blocks
    )
    return written(changed(tree, blocks=tuple(blocks)))


def going_on(
    block: BlockTree,
    becomes: Callable[[Statement], Statement | None],
    after: Callable[[Statement], Iterable[Statement]],
) -> Iterator[Statement]:
    """Yield what each statement of a block becomes, and what comes right after it.

    Where one goes, its comments stay, on lines of their own.
    """
    dropped: tuple[Piece, ...] = ()
    for statement in block.statements:
        new = becomes(statement)
        if new is None:
            dropped = (*dropped, *statement.above, *_comments_alone(statement))
        else:
            yield changed(new, above=(*dropped, *new.above)) if dropped else new
            dropped = ()
        yield from after(statement)
    if dropped:
        yield Statement(rule=None, line=0, above=(), pieces=dropped)


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


def _comments_alone(statement: Statement) -> tuple[Piece, ...]:
    """Return the comments in a statement, on lines of their own."""
    gap, end = Piece("gap", _indent(statement)), Piece("line end", _line_end(statement))
    comments = (piece for piece in statement.pieces if piece.kind == "comment")
    return tuple(piece for comment in comments for piece in (gap, comment, end))


def _pieces(text: str, like: Statement) -> tuple[Piece, Piece, Piece]:
    end = _line_end(like)
    words = Piece("word", text.replace("\n", end))
    return Piece("gap", _indent(like)), words, Piece("line end", end)


def _indent(like: Statement) -> str:
    first = like.pieces[0]
    return first.text if first.kind == "gap" else INDENT


def _line_end(like: Statement) -> str:
    return next((piece.text for piece in like.pieces if piece.kind == "line end"), "\n")
