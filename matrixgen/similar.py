"""Names that a misspelt word was probably meant to be: rather none than a wrong guess."""

from __future__ import annotations

from collections.abc import Iterable
from heapq import nlargest

NEAR = 0.8
"""How alike two words must be, 1 being the same, as `difflib` measures it."""

COMPARED = 12
"""Words that are compared in full with a misspelt one (a choice)."""


def similar_name(word: str, known: Iterable[str], *, digits_count: bool = True) -> str | None:
    """Return the one of `known` that `word` was most likely meant to be, or None.

    Where `digits_count`, a name with other digits is another name and no misspelt one: `F25` is not
    `F24`, nor `K11` `K12`.
    """
    by_folded: dict[str, str] = {}
    digits = _digits(word)
    for name in known:
        if not digits_count or _digits(name) == digits:
            by_folded.setdefault(name.casefold(), name)
    near = _nearest(word.casefold(), by_folded)
    return by_folded[near] if near else None


def _nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the most alike of the known words, or None where none is near.

    Of those that have most letters in common, in any order, a few are compared in full: that
    takes as long as both words are, multiplied.
    """
    from difflib import SequenceMatcher  # only once a mistake was made: it is slow to import

    matcher = SequenceMatcher(b=word)
    quick: list[tuple[float, str]] = []
    for name in known:
        if 2 * min(len(name), len(word)) >= NEAR * (len(name) + len(word)):
            matcher.set_seq1(name)
            if (upper := matcher.quick_ratio()) >= NEAR:
                quick.append((upper, name))
    full = []
    for _, name in nlargest(COMPARED, quick):
        matcher.set_seq1(name)
        full.append((matcher.ratio(), name))
    best = max(full, default=(0.0, ""))
    return best[1] if best[0] >= NEAR else None


def only_similar_name(word: str, known: Iterable[str]) -> str | None:
    """Return the one of `known` that `word` is like, with the same digits; None if several are."""
    names = list(known)
    near = similar_name(word, names)
    others = (name for name in names if name != near)
    return near if near and similar_name(word, others) is None else None


def _digits(word: str) -> str:
    return "".join(letter for letter in word if letter.isdigit())


def similar_help(word: str, known: Iterable[str], *, digits_count: bool = True) -> str | None:
    """Return the help that offers a similar name, or None where there is none."""
    name = similar_name(word, known, digits_count=digits_count)
    return f"`{name}` has a similar name" if name else None
