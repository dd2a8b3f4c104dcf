"""Names of wires: those that go on keep theirs, and numbers have no holes."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Sequence
from itertools import count, islice

from matrixgen.model import Line

NUMBERED = re.compile(r"(.*?)(0|[1-9][0-9]*)")
"""A word and a number, as in `r0`."""


def line_names(
    letter: str,
    old: Sequence[Line],
    kept: Sequence[Line | None],
    others: Collection[str],
    spoken_of: Collection[str],
) -> list[str]:
    """Return the names of the wires of an axis.

    `old` are the wires that the file has on it and `kept` those of them that the new ones go on
    from. Names are a word and a number, as most of the old ones are, or else `letter` and a number.
    `others` are names of the other axis, and `spoken_of` those that nobody may lose or get.
    """
    word, first = _usual(letter, [line.name.text for line in old])
    was = [line.name.text if line else None for line in kept]
    fixed = {name for name in was if name and (name in spoken_of or _word(name) != word)}
    fresh = (f"{word}{number}" for number in count(first))
    is_free = (name for name in fresh if name not in {*others, *spoken_of, *fixed})
    slots = list(islice(is_free, len(kept) - len(fixed)))
    names = [name if name in fixed or name in slots else None for name in was]
    left = (slot for slot in slots if slot not in names)
    for goes_on in (True, False):
        for number, name in enumerate(names):
            if name is None and (was[number] is not None) == goes_on:
                names[number] = next(left)
    return [name for name in names if name]


def _usual(letter: str, names: Sequence[str]) -> tuple[str, int]:
    """Return the word that most numbered names have, and the least number with it."""
    parts = [(match[1], int(match[2])) for name in names if (match := NUMBERED.fullmatch(name))]
    if not parts:
        return letter, 0
    word, _ = Counter(word for word, _ in parts).most_common(1)[0]
    return word, min(number for own, number in parts if own == word)


def _word(name: str) -> str | None:
    """Return the word of a numbered name; None of another one."""
    match = NUMBERED.fullmatch(name)
    return match[1] if match else None
