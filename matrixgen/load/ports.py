"""Serial ports over USB: which there are, and which come and go."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from typing import TypeVar

from matrixgen.load import patience
from matrixgen.record import Record

Thing = TypeVar("Thing")


class Port(Record):
    """A serial port of something on USB: its path and what it calls itself."""

    path: str
    title: str
    ids: str

    @property
    def shown(self) -> str:
        """A line for people: `/dev/ttyACM0  Stick (1B4F:9205)`."""
        return f"{self.path}  {self.title} ({self.ids})"


def serial_ports() -> tuple[Port, ...]:
    """Return the serial ports of what is on USB now, by their paths; others are no board's."""
    from serial.tools import list_ports  # only here: no other command needs it

    found = (
        Port(
            port.device,
            port.product or port.description or "no name",
            f"{port.vid:04X}:{port.pid:04X}",
        )
        for port in list_ports.comports()
        if port.vid is not None and port.pid is not None
    )
    return tuple(sorted(found, key=lambda port: port.path))


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
