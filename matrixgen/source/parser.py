"""Text to tree. A line that cannot be read is put aside, and reading goes on after it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.record import Record
from matrixgen.source.patterns import BLOCK_START, pattern

if TYPE_CHECKING:
    import re

    from matrixgen.source.automaton import Automaton
    from matrixgen.source.syntax import Node, Token

BLOCK_END = "_BLOCK_END"
LINE_ENDS = frozenset({BLOCK_END, "_LINE_END", "$END"})

_STATEMENT_END = r"\n(?!(?:[ \t]*(?:#[^\n]*)?\n)*[ \t]+and[ \t]+[^ \t\n#])"
"""A line feed after which nothing goes on with the line, be there comments between or not."""
_PIECE = r'"(?:[^"\\\n]|\\.)*"|#[^\n]*|[^\s#"]+'
_FIRST = r"[ \t]*([^ \t\n#]+)"
_RUN = r'"(?:[^"\\\n]|\\.)*"?|[^\s#]+|.'


class Mistake(Record, kw_only=True):
    """The first place of a line where it stops being readable.

    `state` is the parser's state there, `kind` the type of the token it met, or an empty string
    where there is no such token. `found` is that text, at `line` and `column`; where the line ends
    too early it is the line's last word. `dropped` is all the text that was put aside because of
    it, from the start of line `first_line` on.
    """

    state: int
    kind: str
    found: str
    line: int
    column: int
    first_line: int
    dropped: str

    @property
    def place(self) -> int:
        """Where in `dropped` the broken word stands, counted from 0."""
        lines = self.dropped.split("\n")[: self.line - self.first_line]
        return sum(len(line) + 1 for line in lines) + self.column - 1

    @property
    def is_indented(self) -> bool:
        """Whether the line does not start in the first column, so that it opens no block."""
        return self.dropped.startswith((" ", "\t"))

    @property
    def first_word(self) -> str:
        """The first word of what was put aside."""
        return _first(self.dropped, 0).group(1)


class Parsed(Record):
    """A file's tree, without the lines that could not be read."""

    tree: Node
    mistakes: list[Mistake]


def parse(source: str, most_mistakes: int, *, keeps_all: bool = False) -> Parsed:
    """Return the tree of a text whose line ends are single line feeds, and its mistakes."""
    from matrixgen.source.automaton import Automaton
    from matrixgen.source.by_block import keys_blocks
    from matrixgen.source.lexer import keys_lexer

    text = "\n" + source  # every line, the first one too, has a line end before it
    tree = keys_blocks().tree(text, keeps_all=keeps_all)
    if tree is not None:
        return Parsed(tree, [])
    return parsed_by(Automaton(text, keys_lexer(), keeps_all=keeps_all), text, most_mistakes)


def parsed_by(reader: Automaton, text: str, most_mistakes: int) -> Parsed:
    """Return what a parser that has not begun makes of its text, from a line feed on."""
    from matrixgen.source.automaton import Unexpected

    reader.line = 0
    mistakes: list[Mistake] = []
    while True:
        try:
            return Parsed(reader.resume(), mistakes)
        except Unexpected as error:
            mistakes.append(_recover(reader, error.token, text))
            if len(mistakes) == most_mistakes:
                _move_to(reader, text, len(text))


def _recover(reader: Automaton, token: Token | None, text: str) -> Mistake:
    """Put the broken line aside, or the block whose first line it is; say what broke it.

    `token` is what the parser did not expect, or None where the lexer could not make a token.
    """
    state, position = reader.states[-1], reader.position
    line_end = _forget_line(reader)
    in_header = line_end is None or line_end.type == BLOCK_END
    start, first_line = _line_at(text, line_end or token, position)
    if line_end is None and token is not None:  # an indented line before the first block
        position, token = _first(text, start).start(1), None
    stop = _end_of(text, start, in_header)
    _move_to(reader, text, stop)
    place, found = _found(text, start, position, token)
    return Mistake(
        state=state,
        kind="" if token is None else token.type,
        found=found,
        line=first_line + text.count("\n", start, place),
        column=place - text.rfind("\n", 0, place),
        first_line=first_line,
        dropped=text[start:stop],
    )


def _line_at(text: str, token: Token | None, position: int) -> tuple[int, int]:
    """Return where a line starts, and its number: the one after a line end, or of a word."""
    if token is not None:
        position = token.end_pos if token.type in LINE_ENDS else token.start_pos
    start = text.rfind("\n", 0, position) + 1
    return start, text.count("\n", 0, start)


def _forget_line(reader: Automaton) -> Token | None:
    """Take what the parser holds of this line off its stacks; return the line end before it."""
    while reader.values:
        reader.states.pop()
        value = reader.values.pop()
        if isinstance(value, str) and value.type in LINE_ENDS:
            return value
    return None


def _end_of(text: str, start: int, of_block: bool) -> int:
    """Return where the statement, or the block, that starts at `start` ends."""
    following = pattern(BLOCK_START if of_block else _STATEMENT_END).search(text, start)
    return following.start() if following else len(text)


def _first(text: str, start: int) -> re.Match[str]:
    """Return the match for the first word of the line that starts at `start`; it has one."""
    found = pattern(_FIRST).match(text, start)
    assert found is not None  # what has no word is no line to the grammar
    return found


def first_word(line: str) -> str:
    """Return the first word of a line that is not blank and no comment."""
    return _first(line, 0).group(1)


def _found(text: str, start: int, position: int, token: Token | None) -> tuple[int, str]:
    """Return the text that a mistake is about, and where it stands."""
    if token is None:
        run = pattern(_RUN).match(text, position)
        return position, run.group() if run else ""
    if token.type not in LINE_ENDS:
        return token.start_pos, str(token)
    pieces = pattern(_PIECE).finditer(text, start, _end_of(text, start, of_block=False))
    last = [piece for piece in pieces if not piece.group().startswith("#")][-1]
    return last.start(), last.group()


def _move_to(reader: Automaton, text: str, position: int) -> None:
    """Let the parser go on at `position`, before or after where it is."""
    here = reader.position
    reader.line += text.count("\n", here, position) - text.count("\n", position, here)
    reader.position = position
    reader.line_start = text.rfind("\n", 0, position) + 1
