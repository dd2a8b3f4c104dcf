"""What lies around a chip: the parts that it needs, and the way into its boot loader."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record

EntryWay = Literal["jump", "watchdog mark", "reset button"]


class Around(Record):
    """A part that a bare chip needs: which, where it goes, why, and who says so."""

    part: str
    where: str
    why: str
    source: str


class BootLoaderEntry(Record):
    """How firmware can start the boot loader.

    By a jump to `address`, in bytes from the start of flash; by a reset by the watchdog once the
    bytes at `address` of the data space hold the mark `value`, low byte first; or not at all, for
    one that only its reset button starts. What does not belong to the kind is None.
    """

    kind: EntryWay
    address: int | None
    value: int | None
    source: str
