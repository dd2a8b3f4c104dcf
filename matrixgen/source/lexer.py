"""The contextual lexer of Lark, made for a short run.

Lark compiles one regular expression for each set of terminals that the parser can be waiting for:
31 of them in an ordinary file, which takes longer than parsing it. Here each terminal is compiled
once, the first time it is needed, and a set of terminals is tried one after the other, in Lark's
order. A terminal that is a plain word never matches the start of a longer word.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from copy import copy
from functools import cache, cached_property
from typing import TYPE_CHECKING, Any

from lark.lexer import BasicLexer, ContextualLexer

if TYPE_CHECKING:
    from lark.common import LexerConf
    from lark.lexer import TerminalDef
    from lark.utils import TextSlice

_compiled = cache(re.compile)


class TerminalSet:
    """Terminals that may come next: what Lark calls a scanner."""

    def __init__(self, terminals: Collection[TerminalDef]) -> None:
        """Take the terminals in the order in which they are to be tried."""
        self.allowed_types = frozenset(terminal.name for terminal in terminals)
        patterns = [one for one in terminals if one.pattern.type == "re"]
        self._patterns = [(_compiled(one.pattern.to_regexp()).match, one.name) for one in patterns]
        plain = [one for one in terminals if one.pattern.type == "str"]
        self._words = {one.pattern.value: one.name for one in plain}

    def match(self, text: TextSlice[str], position: int) -> tuple[str, str] | None:
        """Return what stands at a place of the text, and its terminal's name."""
        whole = text.text
        for matches, name in self._patterns:
            found = matches(whole, position)
            if found:
                value = found.group()
                return value, self._words.get(value, name)
        for word, name in self._words.items():
            if whole.startswith(word, position) and not _goes_on(whole, position, word):
                return word, name
        return None


def _goes_on(text: str, position: int, word: str) -> bool:
    """Whether the text at `position` has a longer word than `word`."""
    after = text[position + len(word) : position + len(word) + 1]
    return word[-1].isalpha() and (after.isalnum() or after in ("-", "_"))


class _Terminals(BasicLexer):
    """Lark's lexer for one set of terminals, with a `TerminalSet` to try them."""

    def _build_scanner(self) -> Any:
        self.callback = dict(self.user_callbacks)
        return TerminalSet(self.terminals)


class _ByState(dict[int, _Terminals]):
    """The lexer for each state of the parser, made when it is first asked for."""

    def __init__(self, conf: LexerConf, states: Mapping[int, Collection[str]]) -> None:
        self._conf = conf
        self._states = states

    def __missing__(self, state: int) -> _Terminals:
        conf = copy(self._conf)
        known = conf.terminals_by_name
        names = {*self._states[state], *conf.ignore}
        conf.terminals = [known[name] for name in names if name in known]
        return self.setdefault(state, _Terminals(conf))


class KeysLexer(ContextualLexer):
    """Lark's contextual lexer, which makes a lexer for a state when the parser first gets there."""

    def __init__(
        self, conf: LexerConf, states: Mapping[int, Collection[str]], always_accept: object = ()
    ) -> None:
        self._conf = conf
        self.lexers = _ByState(conf, states)  # type: ignore[assignment]  # `dict` is invariant

    @cached_property
    def root_lexer(self) -> _Terminals:  # type: ignore[override]  # only errors need it
        """The lexer for any terminal at all, to say what an unexpected word is."""
        return _Terminals(self._conf)
