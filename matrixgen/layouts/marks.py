"""The four levels of each key on one system: a table of marks.

A mark is a sign, which is one character, or the name of a dead key, which is longer. X11's table is
whole. That of Windows or macOS has what is known: the plain and shifted signs that are nowhere
said to differ, the signs behind AltGr that are said to be the same, and those that differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from matrixgen.layouts.files import dead_keys
from matrixgen.layouts.ranks import KEYPAD, rank_of
from matrixgen.layouts.strokes import LEVELS, System

Marks = dict[int, list[str | None]]

SAME_KEY = {0x32: 0x31}
"""Usages that systems take for another one: the kernel's table for Linux, memory for the others."""


def is_dead_mark(mark: str | None) -> bool:
    """Whether a mark is the name of a dead key."""
    return mark is not None and len(mark) > 1


def x11_marks(document: Mapping[str, Any]) -> Marks:
    """Return the table of a layout's file as X11 has it."""
    return {int(usage, 16): marks for usage, marks in document["keys"].items()}


def marks_on(document: Mapping[str, Any], system: System) -> Marks | None:
    """Return the table of a layout's file on a system; None where nothing is known of it there."""
    whole = x11_marks(document)
    if system == "linux":
        return whole
    known = document["elsewhere"]
    if known is None:
        return None
    table: Marks = {usage: [None] * LEVELS for usage in whole}
    for usage, level, mark in _agreed(whole, known["same"], known[system]):
        table[usage][level] = mark
    for sign, ways in known[system].items():
        for way in ways:
            usage, level, dead = read_way(way)
            table.setdefault(usage, [None] * LEVELS)[level] = dead or sign
    for usage, other in SAME_KEY.items():
        table[usage] = table[other]
    return table


def _agreed(
    whole: Marks, same: Mapping[str, str], differing: Mapping[str, object]
) -> Iterable[tuple[int, int, str]]:
    """Yield what a system shares with X11: usage, level and mark."""
    best: dict[str, tuple[int, int]] = {}
    for usage, marks in whole.items():
        for level, mark in enumerate(marks[:2]):
            if mark is None:
                continue
            if usage in KEYPAD:
                yield usage, level, mark
            elif _sign_of(mark) in differing:
                continue
            elif mark not in best or rank_of(usage, level) < rank_of(*best[mark]):
                best[mark] = (usage, level)
    for mark, (usage, level) in best.items():
        yield usage, level, mark
    for sign, way in same.items():
        usage, level, dead = read_way(way)
        yield usage, level, dead or sign


def read_way(way: str) -> tuple[int, int, str | None]:
    """Return usage, level and dead key of a way such as `Shift AltGr 2F` or `35 dead acute`."""
    keys, _, dead = way.partition(" dead ")
    *modifiers, usage = keys.split()
    return int(usage, 16), ("Shift" in modifiers) + 2 * ("AltGr" in modifiers), dead or None


def _sign_of(mark: str) -> str:
    return spacing_of(mark) if is_dead_mark(mark) else mark


def spacing_of(dead: str) -> str:
    """Return the sign that a dead key adds to letters, as a character of its own."""
    return str(dead_keys()[dead]["sign"])
