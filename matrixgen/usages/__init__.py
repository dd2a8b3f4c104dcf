"""Words for the usages of HID usage page 0x07, and the numbers behind them."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.usages.table import FIRST_LETTER, LETTERS_AND_DIGITS, TABLE

FIRST_MODIFIER = 0xE0
"""Usages 0xE0 to 0xE7 are the modifiers, in the order of the report's bits (HID 1.11 B.1)."""

# Words of the consumer page (0x0C) that people look for; no keyboard of ours sends them.
_CONSUMER_WORDS = frozenset(
    (
        *("play", "playpause", "record", "fastforward", "rewind", "eject", "media"),
        *("nexttrack", "previoustrack", "scannexttrack", "scanprevioustrack"),
        *("brightnessup", "brightnessdown", "sleep", "wake", "refresh"),
        *("calculator", "email", "mail", "browser"),
    )
)


def _rows() -> list[tuple[int, list[str]]]:
    plain = [(FIRST_LETTER + place, [sign]) for place, sign in enumerate(LETTERS_AND_DIGITS)]
    named = (line.split() for line in TABLE.splitlines() if line)
    return plain + [(int(number, 16), words) for number, *words in named]


_ROWS = _rows()
_NAMES = {number: words[0] for number, words in _ROWS}
_NUMBERS = {word.casefold(): number for number, words in _ROWS for word in words}


def usage_of(word: str) -> int | None:
    """Return the usage that `word` names, in any mixture of upper and lower case, or None."""
    return _NUMBERS.get(word) or _NUMBERS.get(word.casefold())


def name_of(usage: int) -> str:
    """Return the one word that stands for a usage in all output; KeyError where there is none."""
    return _NAMES[usage]


def words_of(usage: int) -> tuple[str, ...]:
    """Return every word for a usage, the one that `name_of` gives first."""
    return next((tuple(words) for number, words in _ROWS if number == usage), ())


def usages() -> tuple[int, ...]:
    """Return every usage that has a name, in ascending order."""
    return tuple(_NAMES)


def is_spelling(word: str) -> bool:
    """Whether `word` is the exact spelling, capitals included, of a usage's word."""
    usage = usage_of(word)
    return usage is not None and word in words_of(usage)


def modifier_bit(usage: int) -> int:
    """Return the bit of a modifier's usage in the report's first byte; 0 for other usages."""
    return 1 << (usage - FIRST_MODIFIER) if FIRST_MODIFIER <= usage <= 0xE7 else 0


def is_consumer_word(word: str) -> bool:
    """Whether `word` sounds like a key of the consumer page, which no keyboard of ours has yet."""
    return word.casefold().replace("-", "").replace("_", "") in _CONSUMER_WORDS


def words() -> Iterable[str]:
    """Return all words, exactly as a keycap or the table spells them."""
    return (word for _, row in _ROWS for word in row)


def near_words(word: str, others: Iterable[str] = ()) -> list[str]:
    """Return at most three known words that look like `word`, the nearest first."""
    return nearest(word, [*others, *words()])


def nearest(word: str, known: Iterable[str]) -> list[str]:
    """Return at most three of `known` that look like `word`, whatever their case."""
    from difflib import get_close_matches  # costs a start 2 ms, and is for mistakes only

    spelt: dict[str, str] = {}
    for candidate in known:
        spelt.setdefault(candidate.casefold(), candidate)
    return [spelt[found] for found in get_close_matches(word.casefold(), spelt, cutoff=0.6)]
