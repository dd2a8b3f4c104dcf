"""Counts and lists of names, as a reader says them."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable

MOST_QUOTED = 60
"""Letters of a text that nobody has set a limit to, such as a name in a JSON file."""


def counted(number: int, one: str, many: str | None = None) -> str:
    """Return a number with its noun: `1 key`, `2 keys`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def brief(text: str) -> str:
    """Return a text from outside as far as a message quotes it."""
    return text if len(text) <= MOST_QUOTED else f"{text[: MOST_QUOTED - 1]}…"


def listed(words: Iterable[str], joint: str = "and") -> str:
    """Return words with commas between, and `joint` before the last one."""
    *most, last = words
    return f"{', '.join(most)} {joint} {last}" if most else last


def named(names: Collection[str], one: str, most: int) -> str:
    """Return names in backticks, or where there are more than `most`, how many: `7 keys`."""
    return quoted(names) if len(names) <= most else counted(len(names), one)


def quoted(names: Iterable[str], joint: str = "and") -> str:
    """Return names as messages show them: each in backticks, the last one after `joint`."""
    return listed((f"`{name}`" for name in names), joint)


_QUOTED = r'"(?:[^"\\]|\\.)*"'
_PARTS = re.compile(rf'(?:{_QUOTED}|[^",]|")+')
_WORDS = re.compile(rf'{_QUOTED}|[^\s"]+|"')


def spaced(phrase: str) -> str:
    """Return a phrase with a blank after each comma and none before it, and units apart.

    Texts in quotes stay as they are.
    """
    if "," not in phrase:
        return phrase
    pieces = (" ".join(_with_unit_apart(_WORDS.findall(one))) for one in _PARTS.findall(phrase))
    return ", ".join(pieces)


def _with_unit_apart(words: list[str]) -> list[str]:
    """Return `after 180 ms` for `after 180ms`."""
    if words[-2:-1] and words[-2] in ("after", "roll", "wait") and words[-1].endswith("ms"):
        return [*words[:-1], words[-1].removesuffix("ms"), "ms"]
    return words
