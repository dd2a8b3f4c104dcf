"""A report in words: the one place that knows what is in its bytes."""

from __future__ import annotations

from collections.abc import Callable

from matrixgen.behaviour.media_reports import PAGES, MediaReports
from matrixgen.behaviour.reports import BOOT_BYTES
from matrixgen.record import Record
from matrixgen.usages import modifier_names, word_of
from matrixgen.usages.media import media_word


class Report(Record):
    """What a report tells the host: of which of its devices, and the names of what is down."""

    of: str
    down: tuple[str, ...]

    @property
    def words(self) -> str:
        """Such as `Shift+A down`."""
        return f"{'+'.join(self.down)} down" if self.down else "nothing down"


def down_in(taken: bytes) -> tuple[int, tuple[int, ...]]:
    """Return the modifiers of the keyboard's report, and the usages that are down."""
    bits = int.from_bytes(taken[BOOT_BYTES:], "little")
    return taken[0], tuple(usage for usage in range(bits.bit_length()) if bits >> usage & 1)


def keyboard_report(taken: bytes, key_word: Callable[[int], str] = word_of) -> Report:
    """Return the words of the keyboard's report: modifiers, then usages by their numbers."""
    modifiers, usages = down_in(taken)
    return Report("keyboard", (*modifier_names(modifiers), *map(key_word, usages)))


def media_report(taken: bytes, reports: MediaReports) -> Report:
    """Return the words of a report of media keys: its number, then a bit for each key."""
    kind, bits = taken[0], int.from_bytes(taken[1:], "little")
    down = (usage for bit, usage in enumerate(reports.usages_of(kind)) if bits >> bit & 1)
    return Report("media", tuple(media_word(PAGES[kind], usage) for usage in down))
