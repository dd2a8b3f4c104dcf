"""Names that a misspelt word was probably meant to be: rather none than a wrong guess."""

from __future__ import annotations

from collections.abc import Iterable

NEAR = 0.8
"""How alike two words must be, 1 being the same, as `difflib` measures it."""


def similar_name(word: str, known: Iterable[str], *, digits_count: bool = True) -> str | None:
    """Return the one of `known` that `word` was most likely meant to be, or None.

    Where `digits_count`, a name with other digits is another name and no misspelt one: `F25` is not
    `F24`, nor `K11` `K12`.
    """
    from difflib import get_close_matches  # only once a mistake was made: it is slow to import

    by_folded: dict[str, str] = {}
    for name in known:
        if not digits_count or _digits(name) == _digits(word):
            by_folded.setdefault(name.casefold(), name)
    near = get_close_matches(word.casefold(), by_folded, n=1, cutoff=NEAR)
    return by_folded[near[0]] if near else None


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
