"""What a word of a cell sends, by one word for it, and how a file spells that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from functools import cache

from matrixgen.model.plate import stem_of
from matrixgen.source.letters import joined_parts
from matrixgen.usages import modifier_bit, modifier_names, name_of, usage_of, words_of
from matrixgen.usages.media import media_usage_of, media_word
from matrixgen.usages.pointer import pointer_usage_of, pointer_word
from matrixgen.usages.us_layout import usages_of_sign

PRINTED = ("Delete", "Insert", "Minus", "Equal")
"""Words that are preferred to shorter ones (common practice, no source)."""

ON_KEYPAD = "Keypad"

DOUBTFUL = "-"
"""A sign that reads like something left out, so that its key's word is preferred."""


@cache
def sent_by(word: str) -> str:
    """Return the one word for what a word sends, with its modifiers; other words as they are."""
    parts = joined_parts(word) or [word]
    return "+".join(_one_word(part) for part in parts)


def _one_word(part: str) -> str:
    usage = usage_of(part)
    if usage is not None:
        return name_of(usage)
    media, pointer = media_usage_of(part), pointer_usage_of(part)
    return media_word(*media) if media else pointer_word(*pointer) if pointer else part


def key_of_sign(sign: str) -> str:
    """Return the word for the key that has a sign on a US layout."""
    return name_of(next(usages_of_sign(sign))[0])


def apart(sent: str) -> tuple[str, str]:
    """Return the modifiers of what is sent, with a `+` behind them, and its key."""
    *modifiers, key = joined_parts(sent) or [sent]
    return "".join(f"{one}+" for one in modifiers), key


class FileSpelling:
    """How a file spells what is sent: as it does elsewhere, or else as a keycap does."""

    def __init__(self, words: Iterable[str]) -> None:
        """Take the words that the file has for keys and cells."""
        parts = [joined_parts(word) or [""] for word in words]
        self._keys = Counter(stem_of(each[-1]) for each in parts)
        self._modifiers = Counter(part for each in parts for part in each[:-1])

    def of(self, sent: str) -> list[str]:
        """Return the spellings of what is sent, the likeliest first; its modifiers have one."""
        *modifiers, key = joined_parts(sent) or [sent]
        before = [self._sorted(one, self._modifiers)[0] for one in modifiers]
        return ["+".join([*before, word]) for word in self._sorted(key, self._keys)]

    def _sorted(self, word: str, used: Counter[str]) -> list[str]:
        words = _spellings(word)
        return sorted(words, key=lambda one: (-used[one], words.index(one)))


@cache
def _spellings(word: str) -> tuple[str, ...]:
    """Return the words for one key, as keycaps have it first."""
    usage = usage_of(word)
    if usage is None:
        return (word,)
    words = words_of(usage)
    printed = [one for one in words if one in PRINTED or one.startswith(ON_KEYPAD)]
    usual = tuple(printed[:1]) or modifier_names(modifier_bit(usage)) or _signs(words)
    return (*usual, *(one for one in sorted(words, key=len) if one not in usual))


def _signs(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(one for one in words if len(one) == 1 and one != DOUBTFUL)
