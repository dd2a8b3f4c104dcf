"""Reads a file as a tree that keeps every letter, whatever is wrong with it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from matrixgen.model.text import BYTE_ORDER_MARK, SourceText
from matrixgen.source.limits import LIMITS
from matrixgen.source.parser import Mistake, parse
from matrixgen.source.parts import words_of
from matrixgen.source.patterns import pattern
from matrixgen.source.reporter import trees

if TYPE_CHECKING:
    from matrixgen.source.parts import Word
    from matrixgen.source.syntax import Node

from matrixgen.source.tree import BlockTree, FileTree, Piece, Statement

_LINE_END = r"\r\n|\r|\n"
_PIECE = (
    r"(?P<comment>\#[^\r\n]*)|(?P<gap>[ \t]+)"
    r'|(?P<word>"(?:[^"\\\r\n]|\\[^\r\n])*"|[,=]|[^\s"\#,=]+|.)'
)
"""What a line is made of that was not read, or stands between the words of one that was."""


def tree_of(source: SourceText) -> FileTree:
    """Return the tree of a file, whatever is wrong with it."""
    text = source.original.removeprefix(BYTE_ORDER_MARK)
    parsed = parse(source.text, LIMITS.file_bytes, keeps_all=True)
    rules = _rules(parsed.tree, parsed.mistakes)
    read: dict[int, list[Word]] = defaultdict(list)
    for word in words_of(parsed.tree):
        read[word[0].line or 1].append(word)
    statements, below = _statements(list(_lines(text, read)), rules)
    headers = [n for n, one in enumerate(statements) if not _is_indented(one)]
    ends = [*headers, len(statements)][1:]
    first = headers[0] if headers else len(statements)
    return FileTree(
        source.original[: len(source.original) - len(text)],
        tuple(statements[:first]),
        tuple(
            BlockTree(statements[start], tuple(statements[start + 1 : end]))
            for start, end in zip(headers, ends, strict=True)
        ),
        below,
    )


def comments_of(text: str) -> list[str]:
    """Return every comment of a text, without the blanks around it, whatever else is in it."""
    lines = [line for line in pattern(_LINE_END).split(text) if "#" in line]
    return [p.text.strip() for line in lines for p in _line(line, ()) if p.kind == "comment"]


def _is_indented(statement: Statement) -> bool:
    return statement.pieces[0].kind == "gap"


def _rules(file: Node, mistakes: Iterable[Mistake]) -> dict[int, str | None]:
    """Return the rule of each statement by its first line; None for a line that was put aside."""
    found: dict[int, str | None] = {}
    for block in trees(file):
        found[block.line] = str(block.data)
        found |= {part.line: str(part.data) for part in trees(block)}
    for mistake in mistakes:
        lines = mistake.dropped.count("\n") + 1
        found |= dict.fromkeys(range(mistake.first_line, mistake.first_line + lines))
    return found


def _lines(text: str, read: Mapping[int, Sequence[Word]]) -> Iterator[list[Piece]]:
    """Yield the pieces of each line, its line end the last of them.

    `read` has the words of each line that could be read, by its number.
    """
    start = number = 0
    for number, end in enumerate(pattern(_LINE_END).finditer(text), 1):
        line = _line(text[start : end.start()], read.get(number, ()))
        yield [*line, Piece("line end", end.group())]
        start = end.end()
    if start < len(text):
        yield _line(text[start:], read.get(number + 1, ()))


def _line(text: str, read: Iterable[Word]) -> list[Piece]:
    pieces: list[Piece] = []
    here = 0
    for token, terminal, part in read:
        start = (token.column or 1) - 1
        pieces += _pieces(text[here:start])
        pieces.append(Piece("word", str(token), terminal, part))
        here = start + len(token)
    pieces += _pieces(text[here:])
    if _goes_on(pieces):
        pieces[1] = Piece("joint", pieces[1].text)
    return pieces


def _pieces(text: str) -> Iterator[Piece]:
    for match in pattern(_PIECE).finditer(text):
        yield Piece(match.lastgroup, match.group())  # type: ignore[arg-type]  # its groups are kinds


def _goes_on(line: Sequence[Piece]) -> bool:
    """Whether a line begins with `and` and has something after it."""
    kinds = [piece.kind for piece in line[:4]]
    return kinds == ["gap", "word", "gap", "word"] and line[1].text == "and"


def _statements(
    lines: list[list[Piece]], rules: dict[int, str | None]
) -> tuple[list[Statement], tuple[Piece, ...]]:
    """Return the statements that the lines make up, and what follows the last one."""
    found: list[Statement] = []
    above: list[Piece] = []
    number = 1
    while number <= len(lines):
        if not _has_words(lines[number - 1]):
            above += lines[number - 1]
            number += 1
            continue
        after = _end_of_joined(lines, number) + 1
        pieces = [piece for line in lines[number - 1 : after - 1] for piece in line]
        found.append(
            Statement(rule=rules.get(number), line=number, above=tuple(above), pieces=tuple(pieces))
        )
        above, number = [], after
    return found, tuple(above)


def _has_words(line: list[Piece]) -> bool:
    return any(piece.kind == "word" for piece in line)


def _end_of_joined(lines: list[list[Piece]], start: int) -> int:
    """Return the place after the last line that goes on with the statement before `start`."""
    end = start
    for place in range(start, len(lines)):
        if _has_words(lines[place]):
            if all(piece.kind != "joint" for piece in lines[place]):
                break
            end = place + 1
    return end
