"""How long a load waits for what, in seconds; all are planning figures without a source."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from typing import TypeVar

Thing = TypeVar("Thing")

APPEARS = 60.0
"""For a board that is to be plugged in, or put into its boot loader by hand."""

RESTARTS = 8.0
"""For a board that restarts by itself; a common loader then waits 8 s for an image."""

GOES = 15.0
"""For a drive to go once it has its image."""

TYPES = 6.0
"""For the keyboard to come up on USB after its image was loaded."""

LOOKS = 0.1
"""Between two looks at what is plugged in."""


def awaited(
    before: Iterable[Thing], look: Callable[[], Iterable[Thing]], seconds: float
) -> tuple[Thing, ...]:
    """Return what a look shows that it did not show a look ago, within so many seconds.

    What went and came back is new, too: a boot loader may come up under the path, and even the
    ids, of the program that it follows.
    """
    known, until = set(before), time.monotonic() + seconds
    while True:
        now = tuple(look())
        if new := tuple(thing for thing in now if thing not in known):
            return new
        if time.monotonic() >= until:
            return ()
        known &= set(now)
        time.sleep(LOOKS)
