"""A parser that works by tables (LALR(1)): one word after another, until one does not fit.

It lexes as Lark's contextual lexer does, and makes the trees that Lark makes: what it is held to by
`tests/language/test_by_lark.py`.
"""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.source.lexer import Lexer, TerminalSet
from matrixgen.source.parse_tables import GrammarRule
from matrixgen.source.syntax import Node, Token

END = "$END"
"""The terminal that stands for the end of the text."""


class Unexpected(Exception):
    """A word does not fit, or, without a word, what stands there is none."""

    def __init__(self, token: Token | None) -> None:
        super().__init__()
        self.token = token


class Automaton:
    """The reading of one text. What it holds may be changed after an `Unexpected`.

    `states` and `values` are its stacks: where it is in the grammar, and what was read. `position`
    is its place in the text, on line number `line`, which begins at `line_start`.
    """

    def __init__(self, text: str, lexer: Lexer, *, keeps_all: bool = False) -> None:
        self._text, self._lexer, self._keeps_all = text, lexer, keeps_all
        self._tables = tables = lexer.tables
        self._last: Token | None = None
        self.states = [tables.start]
        self.values: list[Token | Node] = []
        self.position, self.line, self.line_start = 0, 1, 0

    def resume(self) -> Node:
        """Return the tree of the whole text; raises `Unexpected`, and then stays where it is."""
        while (token := self._lexed()) is not None:
            self._take(token)
        self._take(self._end())
        (tree,) = self.values
        assert isinstance(tree, Node)
        return tree

    def read_to(self, place: int) -> bool:
        """Read the words before a place of the text; return False if one of them does not fit."""
        try:
            while (token := self._lexed()) is not None and token.start_pos < place:
                self._take(token)
        except Unexpected:
            return self.position >= place  # what stands there is not to be read
        return True

    def expected(self) -> frozenset[str]:
        """Return the terminals that may come next."""
        may_come = self._tables.states[self.states[-1]]
        return frozenset(name for name in may_come if self._would_take(name))

    def _would_take(self, terminal: str) -> bool:
        """Whether a word of a terminal fits here, once the rules have ended that it ends."""
        tables, states = self._tables, list(self.states)
        while (does := tables.states[states[-1]].get(terminal)) is not None:
            if does >= 0:
                return True
            rule = tables.rules[-1 - does]
            del states[len(states) - rule.size :]
            states.append(tables.states[states[-1]][rule.origin])
            if states[-1] == tables.end:
                return terminal == END
        return False

    def _lexed(self) -> Token | None:
        """Return the next word, None at the end of the text."""
        try:
            return self._next(self._lexer.of_state(self.states[-1]))
        except Unexpected:
            raise Unexpected(self._next(self._lexer.every)) from None

    def _next(self, terminals: TerminalSet) -> Token | None:
        text, ignored = self._text, self._tables.ignored
        while self.position < len(text):
            start = self.position
            found = terminals.match(text, start)
            if found is None:
                raise Unexpected(None)
            value, kind = found
            line, column = self.line, start - self.line_start + 1
            self.position = start + len(value)
            if "\n" in value:
                self.line += value.count("\n")
                self.line_start = start + value.rindex("\n") + 1
            if kind not in ignored:
                self._last = Token(kind, value, start, line, column)
                return self._last
        return None

    def _end(self) -> Token:
        """Return the end of the text as a token, right after the last word."""
        last = self._last
        if last is None:
            return Token(END, "", 0, 1, 1)
        return Token(END, "", last.end_pos, last.end_line, last.end_column)

    def _take(self, token: Token) -> None:
        """Go on by a word: end each rule that ends before it, then go to the state after it."""
        tables, states = self._tables, self.states
        while True:
            does = tables.states[states[-1]].get(token.type)
            if does is None:
                raise Unexpected(token)
            if does >= 0:
                states.append(does)
                self.values.append(token)
                return
            rule = tables.rules[-1 - does]
            self._end_rule(rule)
            states.append(tables.states[states[-1]][rule.origin])
            if states[-1] == tables.end and token.type == END:
                return

    def _end_rule(self, rule: GrammarRule) -> None:
        """Put a tree in the place of what it is made of."""
        place = len(self.values) - rule.size
        found = self.values[place:]
        del self.values[place:], self.states[place + 1 :]
        kept: list[Token | Node] = []
        for number in rule.every if self._keeps_all else rule.kept:
            if number >= 0:
                kept.append(found[number])
            elif kept:
                kept += _children(found[-1 - number])
            else:  # it is in no tree: a long list, which grows one by one, need not be copied
                kept = _children(found[-1 - number])
        self.values.append(Node(rule.name, kept, first_in(found), last_in(found)))


def _children(tree: Token | Node) -> list[Token | Node]:
    assert isinstance(tree, Node)  # only rules are inlined
    return tree.children


def first_in(found: Sequence[Token | Node]) -> Token | None:
    """Return the first word of things that were found, if they have any."""
    for one in found:
        token = one if isinstance(one, Token) else one.first
        if token is not None:
            return token
    return None


def last_in(found: Sequence[Token | Node]) -> Token | None:
    """Return the last word of things that were found, if they have any."""
    for one in reversed(found):
        token = one if isinstance(one, Token) else one.last
        if token is not None:
            return token
    return None
