"""How much of what is made at random a run tries: a share in the suite, all of it in the long run.

`tests/run --long` is the long run. A variable of a test's own asks for any other number of its.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from typing import TypeVar

T, K = TypeVar("T"), TypeVar("K")
IS_LONG = bool(os.environ.get("MATRIXGEN_LONG"))


def amount(variable: str, *, suite: int, long: int) -> int:
    """Return how many are to be tried: what the variable says, or as the run is."""
    asked = os.environ.get(variable)
    if asked is not None:
        return int(asked)
    return long if IS_LONG else suite


def in_turn(cases: Iterable[T], kinds: Sequence[K]) -> list[tuple[T, K]]:
    """Return each case with one kind, the next one each time; in the long run with every kind."""
    return [
        (case, kind)
        for place, case in enumerate(cases)
        for kind in (kinds if IS_LONG else (kinds[place % len(kinds)],))
    ]


def some(cases: Sequence[T], few: int) -> list[T]:
    """Return so many cases, evenly spread from the first to the last; in the long run all."""
    if IS_LONG or len(cases) <= few:
        return list(cases)
    return [cases[place * (len(cases) - 1) // max(few - 1, 1)] for place in range(few)]
