"""Serial ports that come and go."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from typing import TypeVar

from matrixgen.load import patience
from matrixgen.ports.listing import Port, serial_ports

Thing = TypeVar("Thing")


def new_ports(before: Iterable[Port], seconds: float) -> tuple[Port, ...]:
    """Wait for ports that were not there before, or that went and came back; none if none do.

    A boot loader may come up under the path, and even the ids, of the program that it follows.
    """
    return awaited(before, serial_ports, seconds)


def awaited(
    before: Iterable[Thing], look: Callable[[], Iterable[Thing]], seconds: float
) -> tuple[Thing, ...]:
    """Return what a look shows that it did not show a look ago, within so many seconds."""
    known, until = set(before), time.monotonic() + seconds
    while True:
        now = tuple(look())
        if new := tuple(thing for thing in now if thing not in known):
            return new
        if time.monotonic() >= until:
            return ()
        known &= set(now)
        time.sleep(patience.LOOKS)
