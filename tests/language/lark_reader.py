"""Lark's own parser of the language, as `parser.py` works ours: what ours is held to."""

from __future__ import annotations

from functools import cache

import lark
from lark.lexer import BasicLexer, ContextualLexer

from matrixgen.resources import resource
from matrixgen.source.automaton import Unexpected
from matrixgen.source.by_lark import lark_parser, tables_of
from matrixgen.source.lexer import Lexer, TerminalSet
from matrixgen.source.parse_tables import Terminal
from matrixgen.source.parser import Parsed, parsed_by


class OurWords(BasicLexer):
    """Lark's lexer, with our way to try terminals: what a glued word is, Lark sees differently."""

    def _build_scanner(self):
        self.callback = {}
        tried = [Terminal(t.name, t.pattern.to_regexp(), word_of(t)) for t in self.terminals]
        ours = TerminalSet(tried)
        ours.allowed_types = frozenset(one.name for one in tried)
        return ours

    def match(self, text, pos):
        return self.scanner.match(text.text, pos)


class OurWordsByState(ContextualLexer):
    BasicLexer = OurWords


def word_of(terminal):
    return terminal.pattern.value if terminal.pattern.type == "str" else None


@cache
def parser_of(*, keeps_all: bool, our_words: bool) -> lark.Lark:
    plugins = {"ContextualLexer": OurWordsByState} if our_words else {}
    grammar = (resource("grammar") / "keys.lark").read_text("utf-8")
    return lark_parser(grammar, keep_all_tokens=keeps_all, _plugins=plugins)


class LarkReader:
    """Lark's parser of one text, under the names that `Automaton` has."""

    def __init__(self, text: str, parser: lark.Lark) -> None:
        self._reader = parser.parse_interactive(text)
        self.states = self._reader.parser_state.state_stack
        self.values = self._reader.parser_state.value_stack

    @property
    def _counter(self):
        return self._reader.lexer_thread.state.line_ctr

    position = property(
        lambda self: self._counter.char_pos,
        lambda self, value: setattr(self._counter, "char_pos", value),
    )
    line = property(
        lambda self: self._counter.line, lambda self, value: setattr(self._counter, "line", value)
    )

    def _start_line(self, value):
        self._counter.line_start_pos = value
        self._counter.column = self._counter.char_pos - value + 1

    line_start = property(lambda self: self._counter.line_start_pos, _start_line)

    def resume(self):
        try:
            return self._reader.resume_parse()
        except lark.UnexpectedInput as error:
            raise Unexpected(getattr(error, "token", None)) from None


def by_lark(source: str, *, keeps_all: bool = False, our_words: bool = True) -> Parsed:
    """What Lark makes of a text."""
    text, parser = "\n" + source, parser_of(keeps_all=keeps_all, our_words=our_words)
    return parsed_by(LarkReader(text, parser), text, 10**6)


@cache
def lexer_of(*, keeps_all: bool, our_words: bool) -> Lexer:
    """Our lexer with the tables of that very parser, so that states have the same numbers."""
    return Lexer(tables_of(parser_of(keeps_all=keeps_all, our_words=our_words)))
