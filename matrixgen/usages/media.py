"""Words for media keys: the consumer page (0x0C) and the system controls (page 0x01)."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.usages.media_table import MEDIA_TABLE
from matrixgen.usages.numbered import phrase_of_usage

MediaUsage = tuple[int, int]
"""A page and a usage of it."""


def _rows() -> dict[MediaUsage, tuple[str, ...]]:
    named = (line.split() for line in MEDIA_TABLE.splitlines() if line)
    return {(int(page, 16), int(usage, 16)): tuple(words) for page, usage, *words in named}


_ROWS = _rows()
_USAGES = {word.casefold(): usage for usage, words in _ROWS.items() for word in words}


def media_usage_of(word: str) -> MediaUsage | None:
    """Return the page and usage that `word` names, in any mixture of capitals, or None."""
    return _USAGES.get(word.casefold())


def media_word(page: int, usage: int) -> str:
    """Return the one word that stands for a usage of these pages, or a phrase with its number."""
    words = _ROWS.get((page, usage))
    return words[0] if words else phrase_of_usage(page, usage)


def media_words_of(page: int, usage: int) -> tuple[str, ...]:
    """Return every word for a usage, the one that `media_word` gives first."""
    return _ROWS.get((page, usage), ())


def media_usages() -> tuple[MediaUsage, ...]:
    """Return every page and usage that has a word, consumer page first, in ascending order."""
    return tuple(_ROWS)


def media_words() -> Iterable[str]:
    """Return all words, exactly as a keycap or the table spells them."""
    return (word for words in _ROWS.values() for word in words)
