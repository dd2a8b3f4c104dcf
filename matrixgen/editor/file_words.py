"""The words of a file by what they are: what it names, and where, whatever is wrong with the rest.

All of it goes by the terminals of the grammar, so a new statement needs nothing here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from matrixgen.merge.rewrite import NAMED
from matrixgen.model import Span
from matrixgen.record import Record
from matrixgen.source.letters import name_of_key
from matrixgen.source.parts import WIRES
from matrixgen.source.tree import FileTree, Statement, placed

PLATE_LINE = "plate_line"
TO = "to"


class WordAt(Record, kw_only=True):
    """A word of a file: its terminal, where it stands, and the statement that has it.

    `rule` is that statement's, `block` the word that its block begins with. `is_first` is whether
    it is the statement's first word besides those of the language.
    """

    text: str
    terminal: str
    span: Span
    rule: str
    block: str
    is_first: bool
    statement: Statement


class FileWords:
    """Every word of a file, and what they name."""

    def __init__(self, path: str, tree: FileTree) -> None:
        self._path, self._tree = path, tree

    @cached_property
    def all(self) -> tuple[WordAt, ...]:
        """Every word of the statements that could be read, in file order."""
        found: list[WordAt] = []
        for block in self._tree.blocks:
            head = block.header.rule or (block.header.words or ("",))[0]
            for one in (block.header, *block.statements):
                found += self._words(one, head)
        return tuple(found)

    def _words(self, statement: Statement, block: str) -> Iterator[WordAt]:
        if statement.rule is None:
            return
        is_first = True
        for piece, line, column in placed(statement.pieces, statement.line):
            if piece.kind == "word":
                is_name = piece.terminal in NAMED
                yield WordAt(
                    text=piece.text,
                    terminal=piece.terminal,
                    span=Span.in_line(self._path, line, column, len(piece.text)),
                    rule=statement.rule,
                    block=block,
                    is_first=is_first and is_name,
                    statement=statement,
                )
                is_first = is_first and not is_name

    def of(self, *terminals: str) -> list[WordAt]:
        """Return the words of some terminals."""
        return [one for one in self.all if one.terminal in terminals]

    def texts(self, *terminals: str, rule: str | None = None) -> list[str]:
        """Return each word of some terminals once, in any statement or in those of a rule."""
        each = (one.text for one in self.of(*terminals) if rule in (None, one.rule))
        return list(dict.fromkeys(each))

    @cached_property
    def plate_lines(self) -> tuple[tuple[str, ...], ...]:
        """The keys of each line of the plate."""
        lines: dict[int, list[str]] = {}
        for one in self.of("KEY"):
            if one.rule == PLATE_LINE:
                lines.setdefault(one.statement.line, []).append(name_of_key(one.text))
        return tuple(map(tuple, lines.values()))

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """Every key, in the order of the plate."""
        return tuple(key for line in self.plate_lines for key in line)

    def listed(self, statement: Statement) -> tuple[str, ...]:
        """Return the keys that a statement lists, runs in full."""
        words = [one.text for one in statement.pieces if one.terminal in ("KEY", "TO")]
        return tuple(self.in_full(words))

    def in_full(self, words: Sequence[str]) -> Iterator[str]:
        """Yield keys that are listed, and those inside of runs."""
        place_of = {key: place for place, key in enumerate(self.keys)}
        for place, word in enumerate(words):
            key = name_of_key(word)
            if word == TO:
                ends = [place_of.get(name_of_key(end), -1) for end in words[place - 1 : place + 2]]
                if len(ends) == 3 and ends[0] >= 0 and ends[2] >= 0:
                    yield from self.keys[min(ends[0], ends[2]) : max(ends[0], ends[2]) + 1]
            else:
                yield key

    @cached_property
    def wires(self) -> tuple[Statement, ...]:
        """The statements of wires."""
        found = {id(one.statement): one.statement for one in self.all if one.rule in WIRES}
        return tuple(found.values())

    @cached_property
    def defined(self) -> dict[str, list[WordAt]]:
        """The words that define a name, by their terminals."""
        found: dict[str, list[WordAt]] = {}
        for one in self.all:
            if _defines(one):
                found.setdefault(one.terminal, []).append(one)
        return found

    def names(self, terminal: str) -> tuple[str, ...]:
        """Return the names of a terminal that the file gives to things."""
        return tuple(one.text for one in self.defined.get(terminal, ()))

    def undefined(self, terminal: str) -> list[str]:
        """Return the names of a terminal that are used and that nothing defines."""
        known = self.names(terminal)
        return [text for text in self.texts(terminal) if text not in known]


def _defines(one: WordAt) -> bool:
    """Whether a word gives something its name: on the plate, or as the first of its statement."""
    if one.terminal == "KEY":
        return one.rule == PLATE_LINE
    return one.is_first and one.terminal != "CELL"
