"""Things that are called otherwise: whatever they are, a name is for people."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from matrixgen.compare.change import Change
from matrixgen.compare.matching import Match


def renamed(what: Literal["key", "wire", "layer", "action"], match: Match) -> Iterator[Change]:
    """Yield a change for each thing of a kind whose name differs."""
    for old, new in match.renames.items():
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
