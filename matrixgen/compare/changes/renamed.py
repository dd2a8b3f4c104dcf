"""Things that are called otherwise: whatever they are, a name is for people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from matrixgen.compare.change import Change
from matrixgen.compare.pairs import Match

RenamedKind = Literal["key", "wire", "layer", "action", "light", "knob"]


def renamed(what: RenamedKind, match: Match) -> Iterator[Change]:
    """Yield a change for each thing of a kind whose name differs, or two that exchanged theirs."""
    names = match.renames
    for old, new in names.items():
        if names.get(new) == old:
            if list(names).index(old) < list(names).index(new):
                yield _exchanged(what, old, new, is_guess=bool({old, new} & match.guessed))
            continue
        yield Change(
            kind="cosmetic",
            slug=f"{what}-renamed",
            text=f"{what} `{old}` is now called `{new}`",
            thing=f"{what} renamed",
            keys=(new,) if what == "key" else (),
            old=old,
            new=new,
            is_guess=old in match.guessed,
        )


def in_both(old: Sequence[str], new: Sequence[str]) -> tuple[list[str], list[str]] | None:
    """Return the names that two lists share, in the order of each; None where that is the same."""
    both = set(old) & set(new)
    before, after = ([name for name in names if name in both] for names in (old, new))
    return (before, after) if before != after else None


def _exchanged(what: RenamedKind, one: str, other: str, *, is_guess: bool) -> Change:
    return Change(
        kind="cosmetic",
        slug=f"{what}-names-exchanged",
        text=f"{what}s `{one}` and `{other}` have exchanged their names",
        thing=f"exchange of {what} names",
        keys=(one, other) if what == "key" else (),
        old=one,
        new=other,
        is_guess=is_guess,
    )
