"""Words for usages and the numbers behind them: here page 0x07, in `media.py` the media keys."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.usages.media import media_usage_of, media_words, media_words_of
from matrixgen.usages.numbered import KEYBOARD, phrase_of_usage
from matrixgen.usages.pointer import pointer_usage_of, pointer_words
from matrixgen.usages.table import FIRST_LETTER, LETTERS_AND_DIGITS, TABLE

FIRST_MODIFIER = 0xE0
"""Usages 0xE0 to 0xE7 are the modifiers, in the order of the report's bits (HID 1.11 B.1)."""

_MODIFIERS = ("Ctrl", "Shift", "Alt", "GUI", "RightCtrl", "RightShift", "AltGr", "RightGUI")

_HEEDED_BY_FEW = frozenset((0x66, 0x7F, 0x80, 0x81))
_NO_KEY_CODE = frozenset(
    (
        *(0x82, 0x83, 0x84, 0x86, 0x8D, 0x8E, 0x8F, *range(0x95, 0x9C), *range(0x9D, 0xB0)),
        *(usage for usage in range(0xB0, 0xE0) if usage not in (0xB6, 0xB7, 0xD8)),
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


def word_of(usage: int) -> str:
    """Return the one word that stands for a usage, or a phrase with its number."""
    return _NAMES.get(usage) or phrase_of_usage(KEYBOARD, usage)


def words_of(usage: int) -> tuple[str, ...]:
    """Return every word for a usage, the one that `name_of` gives first."""
    return next((tuple(words) for number, words in _ROWS if number == usage), ())


def usages() -> tuple[int, ...]:
    """Return every usage that has a name, in ascending order."""
    return tuple(_NAMES)


def is_spelling(word: str) -> bool:
    """Whether `word` is the exact spelling, capitals included, of some key's word."""
    usage = usage_of(word)
    if usage is None:
        media = media_usage_of(word)
        return (media is not None and word in media_words_of(*media)) or word in pointer_words()
    return word in words_of(usage)


def is_word(word: str) -> bool:
    """Whether some key has this word, media and pointer keys too, in any mixture of capitals."""
    finders = (usage_of, media_usage_of, pointer_usage_of)
    return any(finder(word) is not None for finder in finders)


def modifier_bit(usage: int) -> int:
    """Return the bit of a modifier's usage in the report's first byte; 0 for other usages."""
    return 1 << (usage - FIRST_MODIFIER) if FIRST_MODIFIER <= usage <= 0xE7 else 0


def modifier_names(modifiers: int) -> tuple[str, ...]:
    """Return the short words of the modifiers whose bits are set, in the order of the bits."""
    return tuple(name for bit, name in enumerate(_MODIFIERS) if modifiers >> bit & 1)


def hosts_ignore(usage: int) -> bool:
    """Whether a usage of the keyboard page is one that many computers do nothing about.

    Linux has a key code for all but those of `_NO_KEY_CODE` (the kernel's table of the page, 6.1,
    drivers/hid/hid-input.c). Power and the three for sound have one there, and none in the
    translation that Windows makes (from memory).
    """
    return usage in _NO_KEY_CODE or usage in _HEEDED_BY_FEW


def words() -> Iterable[str]:
    """Return all words, media keys' too, exactly as a keycap or the tables spell them."""
    yield from (word for _, row in _ROWS for word in row)
    yield from media_words()
    yield from pointer_words()
