"""The media keys that a keyboard has, as places in its media reports."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.model import Keyboard, Media
from matrixgen.record import Record
from matrixgen.usages.numbered import CONSUMER, GENERIC_DESKTOP

COLLECTIONS = (
    (1, CONSUMER, 0x01, "consumer control"),
    (2, GENERIC_DESKTOP, 0x80, "system control"),
)
"""Report number, page, and the usage that says what the report is of (HID Usage Tables, sections
15 and 4.5)."""

HEAD_BYTES, USAGE_BYTES, PADDING_BYTES, TAIL_BYTES = 14, 3, 4, 5
"""How long the parts of a collection are in the report descriptor: see `table_media.c.j2`."""


class MediaView(Record):
    """A report of media keys: a bit for each, in whole bytes."""

    report: int
    page: int
    usage: int
    title: str
    keys: tuple[Media, ...]

    @property
    def bytes(self) -> int:
        """How many bytes the bits take."""
        return -(-len(self.keys) // 8)

    @property
    def padding(self) -> int:
        """How many bits of the last byte are nobody's."""
        return 8 * self.bytes - len(self.keys)

    @property
    def descriptor_bytes(self) -> int:
        """How long its part of the report descriptor is."""
        padding = PADDING_BYTES if self.padding else 0
        return HEAD_BYTES + USAGE_BYTES * len(self.keys) + TAIL_BYTES + padding


class MediaTable(Record):
    """All the media keys of a keyboard, and the reports that they are in."""

    reports: tuple[MediaView, ...]

    @property
    def keys(self) -> tuple[Media, ...]:
        """Every key, report by report."""
        return tuple(key for report in self.reports for key in report.keys)

    @property
    def numbers(self) -> dict[Media, int]:
        """Each key's number: its bit's in both reports as one lies behind the other.

        A report begins with its own number, one byte.
        """
        first = {1: 8, 2: 8 * (2 + self.bytes_of(1))}
        return {
            key: first[view.report] + place
            for view in self.reports
            for place, key in enumerate(view.keys)
        }

    def bytes_of(self, report: int) -> int:
        """Return how many bytes of bits a report has; 0 where the keyboard has no such keys."""
        return sum(one.bytes for one in self.reports if one.report == report)

    @property
    def descriptor_bytes(self) -> int:
        """How long the report descriptor is; 0 where there is none."""
        return sum(report.descriptor_bytes for report in self.reports)


def media_table(keyboard: Keyboard) -> MediaTable:
    """Return the media keys that a keyboard has, in the order of their usages."""
    used = {action for action in keyboard.every_action if isinstance(action, Media)}
    views = (
        MediaView(report, page, usage, title, _of_page(used, page))
        for report, page, usage, title in COLLECTIONS
    )
    return MediaTable(tuple(view for view in views if view.keys))


def _of_page(used: Iterable[Media], page: int) -> tuple[Media, ...]:
    return tuple(sorted((one for one in used if one.page == page), key=lambda one: one.usage))
