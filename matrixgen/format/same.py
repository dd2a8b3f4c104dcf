"""Whether a file still says the same: its statements, its comments, and what it means."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.stretches import comment_of
from matrixgen.model.meaning import meaning_of
from matrixgen.model.text import SourceText
from matrixgen.source.design import design_of
from matrixgen.source.tree import FileTree, Piece, Statement, every_statement
from matrixgen.source.tree_reader import tree_of

Wording = tuple[str | None, tuple[str, ...], tuple[str, ...]]


def says_the_same(before: SourceText, after: SourceText, tree: FileTree) -> bool:
    """Whether nothing but blanks and line ends differs; `tree` is that of the file before."""
    return wording(tree) == wording(tree_of(after)) and _means(before) == _means(after)


def wording(tree: FileTree) -> list[Wording]:
    """Return each statement's rule, its words, and its comments."""
    last = (None, (), _comments(tree.below))
    return [*map(_wording, every_statement(tree)), last]


def _wording(statement: Statement) -> Wording:
    return statement.rule, statement.words, _comments((*statement.above, *statement.pieces))


def _comments(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Return comments, without the blanks after them."""
    return tuple(comment_of((piece,)) for piece in pieces if piece.kind == "comment")


def _means(source: SourceText) -> object:
    """Return what a file means; of a file with mistakes, what is said of them."""
    design, findings = design_of(source)
    return meaning_of(design) if design else [(found.slug, found.message) for found in findings]
