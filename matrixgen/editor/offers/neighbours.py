"""Words for keys that follow one another: on the usage tables' own list, and on a keyboard."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cache
from itertools import zip_longest

from matrixgen.source.letters import joined_parts
from matrixgen.usages import usages, words_of
from matrixgen.usages.media import media_usages, media_words_of

ROWS = ("QWERTYUIOP[]", "ASDFGHJKL;'", "ZXCVBNM,./", "`1234567890-=")
"""The rows of a keyboard with a US layout, as its keycaps are printed."""

TOGETHER = (("Left", "Down", "Up", "Right"), ("Home", "End", "PgUp", "PgDn"), ("PgUp", "Home"))
"""Keys for moving in orders in which they are often put (common practice, no source)."""

_AS_WORDS = {",": "Comma", "=": "Equal"}


@cache
def _orders() -> tuple[tuple[str, ...], ...]:
    """Return lists of words in which each follows another; of a usage, each of its words."""
    by_number = [words_of(usage) for usage in usages()]
    each = max(map(len, by_number))
    listed = [
        tuple(words[min(place, len(words) - 1)] for words in by_number) for place in range(each)
    ]
    media = tuple(media_words_of(*usage)[0] for usage in media_usages())
    rows = tuple(tuple(_AS_WORDS.get(sign, sign) for sign in row) for row in ROWS)
    return (*rows, *listed, media, *TOGETHER)


def successors(word: str, step: int = 1) -> Iterator[str]:
    """Yield what follows a word, or with a step of -1 comes before it, modifiers as they are."""
    *modifiers, key = joined_parts(word) or [""]
    for order in _orders():
        places = [place for place, one in enumerate(order) if one.casefold() == key.casefold()]
        for place in places[:1]:
            if 0 <= place + step < len(order):
                yield "+".join([*modifiers, order[place + step]])


def next_to(before: str, after: str, known: Collection[str]) -> list[str]:
    """Return words between two others, or next to one, the likeliest first, without known ones."""
    behind, ahead = list(successors(before)), list(successors(after, -1))
    both = [word for word in behind if word in ahead]
    in_turn = (word for pair in zip_longest(behind, ahead) for word in pair if word)
    found = dict.fromkeys([*both, *in_turn])
    return [word for word in found if word not in known]
