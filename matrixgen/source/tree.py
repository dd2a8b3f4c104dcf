"""A file as a tree that keeps every letter: blocks, their statements, and what stands between.

Lark says what each statement is; here its words, gaps and comments are in their places as well, so
that a program can change one word, or the gaps alone, and write the file back. Text that could not
be read is a statement like any other, without a rule.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import groupby
from typing import TYPE_CHECKING, Literal

from matrixgen.model.text import SourceText
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS
from matrixgen.source.parser import Mistake, parse
from matrixgen.source.parts import PartId, words_of
from matrixgen.source.patterns import pattern
from matrixgen.source.reporter import trees

if TYPE_CHECKING:
    from matrixgen.source.parts import Word
    from matrixgen.source.syntax import Node

PieceKind = Literal["word", "joint", "gap", "comment", "line end"]

BYTE_ORDER_MARK = "\ufeff"

_LINE_END = r"\r\n|\r|\n"
_PIECE = (
    r"(?P<comment>\#[^\r\n]*)|(?P<gap>[ \t]+)"
    r'|(?P<word>"(?:[^"\\\r\n]|\\[^\r\n])*"|[,=]|[^\s"\#,=]+|.)'
)
"""What a line is made of that was not read, or stands between the words of one that was."""


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
    def comments(self) -> tuple[str, ...]:
        """Every comment above it and in it."""
        return tuple(p.text for p in (*self.above, *self.pieces) if p.kind == "comment")


class BlockTree(Record):
    """A block: its first line, and the lines that belong to it."""

    header: Statement
    statements: tuple[Statement, ...]


class FileTree(Record):
    """A whole file: its byte order mark or nothing, its blocks, and what follows the last one.

    `loose` are indented lines before the first block.
    """

    mark: str
    loose: tuple[Statement, ...]
    blocks: tuple[BlockTree, ...]
    below: tuple[Piece, ...]


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


def written(tree: FileTree) -> str:
    """Return the text of a tree: for one that was not changed, the file's own, letter by letter."""
    return "".join([tree.mark, *(piece.text for piece in _all_pieces(tree))])


def words_in(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Return the words among some pieces."""
    return tuple(piece for piece in pieces if piece.kind == "word")


def comments_of(text: str) -> list[str]:
    """Return every comment of a text, without the blanks around it, whatever else is in it."""
    lines = [line for line in pattern(_LINE_END).split(text) if "#" in line]
    return [p.text.strip() for line in lines for p in _line(line, ()) if p.kind == "comment"]


def every_statement(tree: FileTree) -> Iterator[Statement]:
    """Yield each statement of a file, headers of blocks included, in order."""
    yield from tree.loose
    for block in tree.blocks:
        yield block.header
        yield from block.statements


def _all_pieces(tree: FileTree) -> Iterator[Piece]:
    for statement in every_statement(tree):
        yield from statement.above
        yield from statement.pieces
    yield from tree.below


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
