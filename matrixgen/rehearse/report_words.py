"""A report in words: the one place that knows what is in its bytes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.behaviour.media_reports import PAGES, MediaReports
from matrixgen.behaviour.reports import BOOT_BYTES
from matrixgen.record import Record
from matrixgen.usages import modifier_names, word_of
from matrixgen.usages.media import media_word


class Report(Record):
    """What a report tells the host: of which of its devices, the names of what is down, what moved.

    What a pointer and its wheels moved is in words, each a number of steps and a way.
    """

    of: str
    down: tuple[str, ...]
    moved: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """Such as `Shift+A down`, or `Button1 down, moved 12 right, 3 up`."""
        down = [f"{'+'.join(self.down)} down"] if self.down else []
        moved = [f"moved {', '.join(self.moved)}"] if self.moved else []
        return ", ".join([*down, *moved]) or "nothing down"


def down_in(taken: bytes) -> tuple[int, tuple[int, ...]]:
    """Return the modifiers of the keyboard's report, and the usages that are down."""
    bits = int.from_bytes(taken[BOOT_BYTES:], "little")
    return taken[0], tuple(usage for usage in range(bits.bit_length()) if bits >> usage & 1)


def keyboard_report(taken: bytes, key_word: Callable[[int], str] = word_of) -> Report:
    """Return the words of the keyboard's report: modifiers, then usages by their numbers."""
    modifiers, usages = down_in(taken)
    return Report("keyboard", (*modifier_names(modifiers), *map(key_word, usages)))


WAYS = (
    ("{} left", "{} right"),
    ("{} up", "{} down"),
    ("wheel {} down", "wheel {} up"),
    ("wheel {} left", "wheel {} right"),
)
"""How a count down and a count up of each axis is said."""


def pointer_report(buttons: int, moved: Sequence[int]) -> Report:
    """Return the words of reports of the pointer: the buttons' bits, and what moved in all."""
    down = (f"Button{bit + 1}" for bit in range(buttons.bit_length()) if buttons >> bit & 1)
    ways = zip(moved, WAYS, strict=True)
    counts = (words[steps > 0].format(abs(steps)) for steps, words in ways if steps)
    return Report("pointer", tuple(down), tuple(counts))


def media_report(taken: bytes, reports: MediaReports) -> Report:
    """Return the words of a report of media keys: its number, then a bit for each key."""
    kind, bits = taken[0], int.from_bytes(taken[1:], "little")
    down = (usage for bit, usage in enumerate(reports.usages_of(kind)) if bits >> bit & 1)
    return Report("media", tuple(media_word(PAGES[kind], usage) for usage in down))
