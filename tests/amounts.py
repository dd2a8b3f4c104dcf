"""How much of what is made at random a run tries: a share in the suite, all of it in the long run.

`tests/run --long` is the long run. A variable of a test's own asks for any other number of its.
"""

from __future__ import annotations

import os

IS_LONG = bool(os.environ.get("MATRIXGEN_LONG"))


def amount(variable: str, *, suite: int, long: int) -> int:
    """Return how many are to be tried: what the variable says, or as the run is."""
    asked = os.environ.get(variable)
    if asked is not None:
        return int(asked)
    return long if IS_LONG else suite
