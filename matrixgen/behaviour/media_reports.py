"""The reports of media keys: HID 1.11 section 8.4, each with its number and a bit for each key."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

PAGES = {1: 0x0C, 2: 0x01}
"""The page of each report, by the report's number."""


@dataclass
class MediaReports:
    """The last report of each kind; `keys` are all that the keyboard has, page and usage."""

    keys: set[tuple[int, int]]
    waiting: bytes | None = None
    last: dict[int, bytes] = field(default_factory=dict)
    owed: set[int] = field(default_factory=set)
    doubtful: bool = True

    def __post_init__(self) -> None:
        self._usages = {
            kind: sorted(usage for on, usage in self.keys if on == page)
            for kind, page in PAGES.items()
        }

    def report(self, kind: int, down: Iterable[tuple[int, int]]) -> bytes:
        """Return the report of a kind while these keys are down."""
        ordered = self.usages_of(kind)
        bits = sum(1 << ordered.index(usage) for page, usage in down if page == PAGES[kind])
        return bytes([kind]) + bits.to_bytes(-(-len(ordered) // 8), "little")

    def usages_of(self, kind: int) -> list[int]:
        """Return the usages of a kind's report, from its first bit on."""
        return self._usages[kind]

    def give(self, down: set[tuple[int, int]], boot: bool) -> bool:
        """Give one report if one is due and can be given; true if so. Boot protocol has none."""
        if boot:
            self.doubtful = True
        if boot or self.waiting is not None:
            return False
        now = {kind: self.report(kind, down) for kind, usages in self._usages.items() if usages}
        for kind, report in now.items():
            last = self.last.get(kind, bytes([kind]).ljust(len(report), b"\0"))
            if report != last or (self.doubtful and any(report[1:] + last[1:])):
                self.owed.add(kind)
        self.doubtful = False
        if not self.owed:
            return False
        kind = min(self.owed)
        self.owed.remove(kind)
        self.waiting = self.last[kind] = now[kind]
        return True
