"""Text from a user's file, made safe for C source."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest


def c_comment(text: str) -> str:
    r"""Return `text` fit to stand inside a C comment, in printable ASCII on one line.

    Other characters become `\u` escapes as in C11 section 6.4.3, which mean nothing in a comment
    but tell a reader what stood there. The two marks of a comment lose their meaning by a space
    (GCC and Clang warn about the opening one).
    """
    plain = "".join(_printable(character) for character in text)
    # A long run such as `/*/` needs the second pass: the space of the first makes no new mark.
    return plain.replace("*/", "* /").replace("/*", "/ *")


def _printable(character: str) -> str:
    if " " <= character <= "~":
        return character
    code = ord(character)
    return f"\\u{code:04X}" if code <= 0xFFFF else f"\\U{code:08X}"


def comment_row(words: Iterable[str], width: int) -> str:
    """Return words for a comment that names what stands in the row of numbers below it."""
    return "".join(f"{c_comment(word):<{width}}" for word in words)


def number_row(cells: Iterable[int | None], width: int) -> str:
    """Return a row of an array, each cell `width` wide; None is a crossing without a key."""
    texts = ("NO_KEY," if cell is None else f"{cell}," for cell in cells)
    return "".join(f"{text:<{width}}" for text in texts).rstrip()


def in_columns(text: str) -> str:
    """Return rows of a table, `{A, B}, /* C */` each, with their cells and comments in columns."""
    rows = [_ROW.fullmatch(line) for line in text.splitlines()]
    cells = [row[2].split(", ") if row else [] for row in rows]
    widths = [max(map(len, column)) for column in zip_longest(*filter(None, cells), fillvalue="")]
    return "".join(
        f"{_padded(row, some, widths) if row else line}\n"
        for line, row, some in zip(text.splitlines(), rows, cells, strict=True)
    )


_ROW = re.compile(r"( *)(\S.*?,) (/\*.*\*/)")


def _padded(row: re.Match[str], cells: Sequence[str], widths: Sequence[int]) -> str:
    """Return a row with each cell as wide as its column."""
    *firsts, last = cells
    padded = (f"{cell + ',':<{width + 1}}" for cell, width in zip(firsts, widths, strict=False))
    return f"{row[1]}{' '.join((*padded, f'{last:<{widths[len(firsts)]}}'))} {row[3]}"


def row_width(words: Iterable[str], least: int) -> int:
    """Return the width at which each word and each number stands clear of the next."""
    return max(least, *(len(c_comment(word)) + 1 for word in words))


def usb_string(text: str, most_units: int = 126) -> tuple[int, ...]:
    """Return a USB string descriptor: its length, type 3, the text in UTF-16LE.

    USB 2.0 section 9.6.7. The length is one byte, so that a text past 126 UTF-16 units is cut,
    never inside a surrogate pair.
    """
    units = b"".join(_whole_characters(text, most_units))
    return (len(units) + 2, 0x03, *units)


def _whole_characters(text: str, room: int) -> Iterator[bytes]:
    for character in text:
        encoded = character.encode("utf-16-le", errors="replace")
        room -= len(encoded) // 2
        if room < 0:
            return
        yield encoded
