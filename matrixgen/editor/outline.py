"""The parts of a file: its blocks and statements, what folds, and what lies around a place."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.editor.kinds import kind_of
from matrixgen.editor.names import word_at
from matrixgen.editor.open_file import OpenText
from matrixgen.editor.positions import LineColumn
from matrixgen.model import Span
from matrixgen.record import Record
from matrixgen.source.tree import BlockTree, Statement


class Symbol(Record, kw_only=True):
    """A block, or something that a statement in it names: all of it, and its name alone."""

    name: str
    kind: str
    whole: Span
    named: Span
    parts: tuple[Symbol, ...] = ()


def symbols(text: OpenText) -> tuple[Symbol, ...]:
    """Return the file's blocks, with the things that they name."""
    return tuple(_block(text, block) for block in text.tree.blocks)


def _block(text: OpenText, block: BlockTree) -> Symbol:
    whole = _span(text, block.header, block.last)
    named = Span.in_line(text.source.path, block.header.line, 1, len(block.header.words[0]))
    own = [
        one for some in text.words.defined.values() for one in some if one.span.line > named.line
    ]
    parts = [
        Symbol(name=one.text, kind=kind_of(one.terminal), whole=one.span, named=one.span)
        for one in sorted(own, key=lambda one: one.span)
        if whole.line <= one.span.line <= whole.end_line
    ]
    name = " ".join(block.header.words)
    return Symbol(name=name, kind="block", whole=whole, named=named, parts=tuple(parts))


def _span(text: OpenText, first: Statement, last: Statement) -> Span:
    end = min(last.last_line, len(text.source.lines))
    place = end, len(text.source.line(end)) + 1
    return Span.over(text.source.path, (first.line, 1), place)


def folds(text: OpenText) -> Iterator[tuple[int, int, bool]]:
    """Yield the first and the last line of what folds, and whether it is comments."""
    for block in text.tree.blocks:
        if block.statements:
            span = _span(text, block.header, block.last)
            yield span.line, span.end_line, False
    start = 0
    for number, line in enumerate((*text.source.lines, ""), 1):
        is_comment = line.lstrip().startswith("#")
        if is_comment and not start:
            start = number
        elif not is_comment and start:
            if number - 1 > start:
                yield start, number - 1, True
            start = 0


def around(text: OpenText, place: LineColumn) -> list[Span]:
    """Return what lies around a place, the smallest first: a word, its statement, its block."""
    word = word_at(text.words, place)
    found = [word.span] if word else []
    for block in text.tree.blocks:
        for one in (block.header, *block.statements):
            found += _if_around(_span(text, one, one), place)
        found += _if_around(_span(text, block.header, block.last), place)
    found.append(Span.over(text.source.path, (1, 1), text.source.end))
    found.sort(key=lambda span: (span.end_line - span.line, span.end_column - span.column))
    return list(dict.fromkeys(found))


def _if_around(span: Span, place: LineColumn) -> list[Span]:
    return [span] if span.start <= place <= span.end else []
