"""The words of a terminal of the grammar, if it has a few and no more."""

from __future__ import annotations

import re._constants as codes  # type: ignore[import-not-found]
import re._parser as parser  # type: ignore[import-not-found]
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import product
from typing import Any

from matrixgen.source.lexer import keys_lexer

MOST = 40
"""Words that a terminal may have to be one of few words."""


@cache
def words_of_terminal(name: str) -> tuple[str, ...]:
    """Return every word of a terminal; none where there are many, as of names and numbers."""
    found = (one for one in keys_lexer().tables.terminals if one.name == name)
    terminal = next(found, None)
    if terminal is None:
        return ()
    if terminal.word is not None:
        return (terminal.word,)
    try:
        words = tuple(dict.fromkeys(_words(parser.parse(terminal.regular))))
    except _Many:
        return ()
    return words if all(word.isprintable() and word.strip() for word in words) else ()


class _Many(Exception):
    """Raised for a regular expression of more words than can be listed."""


def _words(parts: Iterable[tuple[Any, Any]]) -> list[str]:
    """Return the words that parts of a regular expression match one after the other."""
    each = [list(_part(code, value)) for code, value in parts]
    count = 1
    for some in each:
        count *= len(some)
    if count > MOST:
        raise _Many
    return ["".join(some) for some in product(*each)]


def _part(code: Any, value: Any) -> Iterator[str]:
    if code is codes.LITERAL:
        yield chr(value)
    elif code is codes.BRANCH:
        for branch in value[1]:
            yield from _words(branch)
    elif code is codes.SUBPATTERN:
        yield from _words(value[-1])
    elif code in (codes.ASSERT, codes.ASSERT_NOT, codes.AT):
        yield ""
    elif code is codes.IN and all(one is codes.LITERAL for one, _ in value):
        yield from (chr(letter) for _, letter in value)
    else:
        raise _Many
