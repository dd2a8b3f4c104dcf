"""What stands at a place of a text, of the words that the parser can be waiting for there.

One regular expression for each set of terminals takes longer to compile than an ordinary file to
parse. So each terminal is compiled once, the first time it is needed, and those of a set are tried
one after the other, in Lark's order. A terminal that is a plain word never matches the start of a
longer word.
"""

from __future__ import annotations

import re
from collections.abc import Sequence, Set
from functools import cache, cached_property

from matrixgen.source.parse_tables import Tables, Terminal
from matrixgen.source.tables import keys_tables

_compiled = cache(re.compile)


class TerminalSet:
    """Terminals that may come next."""

    def __init__(self, terminals: Sequence[Terminal]) -> None:
        """Take the terminals in the order in which they are to be tried."""
        patterns = [one for one in terminals if one.word is None]
        self._matches = [(_compiled(one.regular).match, one.name) for one in patterns]
        self._words = {one.word: one.name for one in terminals if one.word is not None}

    def match(self, text: str, position: int) -> tuple[str, str] | None:
        """Return what stands at a place of the text, and its terminal's name."""
        for matches, name in self._matches:
            found = matches(text, position)
            if found:
                value = found.group()
                return value, self._words.get(value, name)
        for word, name in self._words.items():
            if text.startswith(word, position) and not _goes_on(text, position, word):
                return word, name
        return None


def _goes_on(text: str, position: int, word: str) -> bool:
    """Whether the text at `position` has a longer word than `word`."""
    after = text[position + len(word) : position + len(word) + 1]
    return word[-1].isalpha() and (after.isalnum() or after in ("-", "_"))


class Lexer:
    """The terminals of a language in sets, each made when it is first asked for."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self._by_state: dict[int, TerminalSet] = {}
        self._by_names: dict[tuple[str, ...], TerminalSet] = {}

    def of_state(self, state: int) -> TerminalSet:
        """Return the terminals that may come in a state of the parser."""
        if state not in self._by_state:
            self._by_state[state] = self._set({*self.tables.states[state], *self.tables.ignored})
        return self._by_state[state]

    @property
    def every(self) -> TerminalSet:
        """All terminals, to say what an unexpected word is."""
        return self._set({one.name for one in self.tables.terminals})

    @cached_property
    def meant(self) -> frozenset[str]:
        """The terminals that trees keep in any case: all but words of the language and signs."""
        patterns = (one.name for one in self.tables.terminals if one.word is None)
        return frozenset(name for name in patterns if not name.startswith("_"))

    def _set(self, names: Set[str]) -> TerminalSet:
        wanted = [one for one in self.tables.terminals if one.name in names]
        known = tuple(one.name for one in wanted)
        if known not in self._by_names:
            self._by_names[known] = TerminalSet(wanted)
        return self._by_names[known]


@cache
def keys_lexer() -> Lexer:
    """Return the lexer of the language; the same one each time."""
    return Lexer(keys_tables())
