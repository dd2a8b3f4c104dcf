"""Compilers, and chips of one family, that take turns over tests that an emulator takes long for.

A module says so with `pytestmark = pytest.mark.compilers_in_turn`, a chip's name in it if only that
chip's tests are meant, or with `chips_in_turn`, where both compilers and both AVR chips take turns.
In the suite each such test runs with one of their images, by its name with which; in the long run
with each.
"""

from __future__ import annotations

import zlib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pytest

MARK = "compilers_in_turn"
KINDS = frozenset({"gcc", "clang"})
CHIPS_MARK = "chips_in_turn"
CHIPS = frozenset({"atmega32u4", "at90usb162"})


def left_out(items: Iterable[pytest.Item]) -> set[pytest.Item]:
    """Return those of a test's items that another compiler's or chip's item stands for."""
    groups: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        if (mark := item.get_closest_marker(MARK)) and set(mark.args) <= set(_words(item.name)):
            groups[group_of(item.nodeid, KINDS)].append(item)
        elif item.get_closest_marker(CHIPS_MARK):
            groups[group_of(item.nodeid, KINDS | CHIPS)].append(item)
    kept = {key: chosen(key, len(group)) for key, group in groups.items()}
    return {
        item
        for key, group in groups.items()
        for place, item in enumerate(group)
        if place != kept[key]
    }


def group_of(name: str, without: frozenset[str]) -> str:
    """Return the name of a test without the compiler in it, or what else takes turns."""
    return "-".join(word for word in _words(name) if word not in without)


def chosen(group: str, among: int) -> int:
    """Return which one of a group is kept: the same one in whichever selection of tests."""
    return zlib.crc32(group.encode()) % among


def _words(name: str) -> Sequence[str]:
    return name.replace("[", "-").replace("]", "").split("-")
