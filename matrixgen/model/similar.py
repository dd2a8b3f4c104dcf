"""The near-name suggestion: one way of finding it, one way of saying it."""

from __future__ import annotations

from collections.abc import Iterable


def similar_name(word: str, known: Iterable[str]) -> str | None:
    """Return the one of `known` that `word` was most likely meant to be, or None."""
    from difflib import get_close_matches  # only once a mistake was made: it is slow to import

    by_folded = {name.casefold(): name for name in known}
    near = get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.6)
    return by_folded[near[0]] if near else None


def suggestion(word: str, known: Iterable[str]) -> str | None:
    """Return the sentence for a help that offers a similar name, or None where there is none."""
    name = similar_name(word, known)
    return f"there is a `{name}` with a similar name" if name else None
