"""The one place through which text from outside goes before it is printed.

A file's name, its words, what a profile or a board says of itself: none of it may drive a terminal,
turn round what stands beside it, or begin a line of its own.
"""

from __future__ import annotations

import codecs

IN_ASCII = {"…": "...", "×": "x", "µ": "u", "Ω": "ohm", "·": "-"}
"""What texts of ours have, for a terminal that has no character for it."""

AS_THE_TERMINAL_CAN = "matrixgen-as-the-terminal-can"
"""How what a terminal cannot show is written, as the `errors` of a stream."""

TAB = "    "
"""How a tab is shown: always as wide, so that the carets stand where they should."""


def clean(text: str) -> str:
    """Return text that cannot drive a terminal, in one line: tabs as blanks, controls escaped."""
    return text if text.isprintable() else "".join(map(_shown, text))


def clean_lines(text: str) -> str:
    """Return the same of text that has lines."""
    return "\n".join(map(clean, text.split("\n")))


def width(text: str) -> int:
    """Return how many columns of a terminal `text` takes once it is cleaned."""
    if text.isascii() and text.isprintable():
        return len(text)
    return sum(map(_letter_width, text))


def _shown(letter: str) -> str:
    r"""Return a letter as it is shown: U+001B as `\x1b`, U+202E as `\u202e`."""
    if letter.isprintable():
        return letter
    if letter == "\t":
        return TAB
    number = ord(letter)
    if 0xDC80 <= number <= 0xDCFF:  # a byte that is not UTF-8, as Python keeps it
        number -= 0xDC00
    if number < 0x100:
        return f"\\x{number:02x}"
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"


def _in_ascii(error: UnicodeError) -> tuple[str | bytes, int]:
    r"""Return the next character in ASCII: as `IN_ASCII` has it, or as `\xe9`."""
    if isinstance(error, UnicodeEncodeError):
        letter = error.object[error.start]
        if letter in IN_ASCII:
            return IN_ASCII[letter], error.start + 1
    return codecs.backslashreplace_errors(error)


codecs.register_error(AS_THE_TERMINAL_CAN, _in_ascii)


def _letter_width(letter: str) -> int:
    from unicodedata import combining, east_asian_width  # few files have such letters

    if not letter.isprintable():
        return len(_shown(letter))
    if combining(letter):
        return 0
    return 2 if east_asian_width(letter) in "WF" else 1
