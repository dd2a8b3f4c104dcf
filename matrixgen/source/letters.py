"""What one letter or sign means in a file: a key of the computer's layout, or what it types."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from typing import TYPE_CHECKING

from matrixgen.source.patterns import pattern
from matrixgen.usages import usage_of
from matrixgen.usages.us_layout import plain_us_usage

if TYPE_CHECKING:
    from matrixgen.layouts import HostLayout
    from matrixgen.layouts.host_layout import Way


NEED_QUOTES = frozenset('+=,:~#"')
"""Signs that mean something else where they stand without quotes."""


_JOINED = r'"(?:[^"\\]|\\.)"|[^+]+'
"""A part of a cell that others are joined to by `+`, which may stand in quotes itself."""


class Letters:
    """The letters and signs of a file, by the layout that it names, or else by their US places."""

    def __init__(self, layout: HostLayout | None = None, *, is_lost: bool = False) -> None:
        """`is_lost` is whether the file names a layout, but one that is not known."""
        self.layout, self.is_lost = layout, is_lost

    def is_sign(self, word: str) -> bool:
        """Whether a word is one letter or sign, and the file says what a computer makes of it."""
        return self.layout is not None and is_letter(unquoted(word))

    def usage_of(self, word: str) -> int | None:
        """Return the usage of a key's name, or of what follows a modifier; None for other words.

        One letter or sign is the key that carries it. Where the layout has no Latin letters, those
        of ASCII are where a US layout has them.
        """
        sign = unquoted(word)
        if self.layout is None:
            return usage_of(sign) or (plain_us_usage(sign) if sign != word else None)
        if not is_letter(sign):
            return usage_of(sign)
        sign = composed(sign)
        if sign.isascii() and not self.layout.has_latin:
            return usage_of(sign)
        return self.layout.switch_of(sign)

    def way_of_cell(self, word: str) -> Way | None:
        """Return the strokes that make one letter or sign appear; None where none do.

        A capital is its letter, as a keycap has it.
        """
        from matrixgen.layouts import KeyWords

        assert self.layout
        return KeyWords(self.layout).way_of_cell(unquoted(composed(word)))


MOST_PARTS = 4
"""A letter and three accents: what is longer is not one letter, and may be very long."""


def is_letter(word: str) -> bool:
    """Whether a word is one letter or sign, with its accents in one or apart."""
    return len(word) == 1 or (len(word) <= MOST_PARTS and len(composed(word)) == 1)


def composed(word: str) -> str:
    """Return a word with each letter and its accents in one, where Unicode has that (NFC)."""
    return word if word.isascii() else unicodedata.normalize("NFC", word)


def unquoted(word: str) -> str:
    """Return the sign of a word that is one in quotes; any other word as it is."""
    is_quoted = len(word) > 2 and word[0] == word[-1] == '"'
    return word[-2] if is_quoted else word


def name_of_key(word: str) -> str:
    """Return a key's name as it is written: a sign is in quotes where it has to be, and only there.

    A tag may follow it.
    """
    if not word.startswith('"'):
        return word
    end = word.rindex('"') + 1
    sign = unquoted(word[:end])
    return (word[:end] if sign in NEED_QUOTES else sign) + word[end:]


def joined_parts(cell: str) -> list[str]:
    """Return the modifiers of a cell, and its key."""
    return pattern(_JOINED).findall(cell) if '"' in cell else cell.split("+")


def is_composed(text: str) -> bool:
    """Whether each letter of a text is in one with its accents, where Unicode has that."""
    return text.isascii() or unicodedata.is_normalized("NFC", text)


def pieces_of(text: str) -> Iterator[tuple[int, int]]:
    """Yield where each letter of a text is, and in how many characters with its accents.

    A quote or a backslash that has a backslash before it is one piece with it.
    """
    start = 0
    while start < len(text):
        end = start + (2 if text[start : start + 2] in ("\\\\", '\\"') else 1)
        while end < len(text) and _joins(text[end]):
            end += 1
        yield start, end - start
        start = end


def _joins(letter: str) -> bool:
    """Whether a character is one with what is before it: an accent, or a part of a syllable."""
    return unicodedata.combining(letter) != 0 or "\u1160" <= letter <= "\u11ff"
