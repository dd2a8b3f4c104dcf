"""What Caps Lock makes of a key: on most it is Shift for letters alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from matrixgen.layouts.ranks import MAIN_BLOCK
from matrixgen.layouts.strokes import System


class CapsLock:
    """Caps Lock of a layout on a system: X11's file says what it does to each key.

    On Windows and macOS it is taken to shift letters alone, except where the file says more.
    """

    def __init__(self, document: Mapping[str, Any], system: System | None) -> None:
        """Take a layout's file."""
        known = document["caps lock"]
        self._is_x11 = system in (None, "linux") or document["elsewhere"] is None
        self._letters = _usages(known["letters"])
        self._every_level = _usages(known["every level"])
        self._types: dict[int, list[str | None]] = {
            int(usage, 16): marks for usage, marks in known["types"].items()
        }
        others = document["elsewhere"] or {}
        self._shifts_all = system in others.get("caps lock shifts every key on", ())

    def mark(self, usage: int, level: int, marks: Sequence[str | None]) -> str | None:
        """Return what a key has on a level while Caps Lock is on; `marks` are those without it."""
        if self._is_x11 and usage in self._types:
            return self._types[usage][level]
        return marks[level ^ 1] if self._swaps(usage, level, marks) else marks[level]

    def _swaps(self, usage: int, level: int, marks: Sequence[str | None]) -> bool:
        if self._is_x11:
            return usage in self._every_level or (usage in self._letters and level < 2)
        if self._shifts_all and usage in MAIN_BLOCK:
            return True
        small, large = marks[level & 2], marks[level | 1]
        return small is not None and large is not None and small != large == _capital(small)


def _capital(sign: str) -> str:
    return sign.upper() if len(sign) == 1 else ""


def _usages(listed: str) -> frozenset[int]:
    return frozenset(int(usage, 16) for usage in listed.split())


def other_cases(sign: str) -> tuple[str, ...]:
    """Return a letter's other case, where the two are one letter for Unicode in both directions."""
    others = {sign.lower(), sign.upper()} - {sign}
    return tuple(sorted(one for one in others if len(one) == 1 and one.lower() == sign.lower()))
