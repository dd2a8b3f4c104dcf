"""Where Windows and macOS differ from X11: from `data/differences.csv` to what a layout's file has.

The table's source: native tables of Windows and macOS as a widespread code editor recorded them in
2020, and Unicode CLDR's keyboards (Windows 6.1, macOS 10.4), beside xkeyboard-config 2.35.1 read
through libxkbcommon; collected on 2026-11-28. 14 layouts, each printable ASCII sign and the
language's own. A `*` marks ways of macOS that hold where it takes the keyboard as one without the
key right of the left Shift key.
"""

from __future__ import annotations

import csv
import functools
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tests.layouts.chosen import (
    AGREED,
    CAPS_SHIFTS_ALL_ON_WINDOWS,
    IN_TABLE,
    WITHOUT_DIFFERENCES,
)

TABLE = Path(__file__).parent / "data" / "differences.csv"
SYSTEMS = {"linux": "linux_xkb", "windows": "windows", "macos": "macos"}
"""Each system's column."""

LEVEL_WORDS = ("", "Shift ", "AltGr ", "Shift AltGr ")

Marks = Mapping[int, Sequence[str | None]]


@functools.cache
def rows() -> tuple[dict[str, str], ...]:
    """Return the rows of the table."""
    with TABLE.open(encoding="utf-8", newline="") as lines:
        return tuple(csv.DictReader(lines))


def rows_of(name: str) -> list[dict[str, str]]:
    """Return the rows of one layout, by its name in X11's registry."""
    return [row for row in rows() if row["layout"] == IN_TABLE.get(name, name)]


def is_compared(name: str) -> bool:
    """Whether the table was made for a layout."""
    return bool(rows_of(name)) or name in WITHOUT_DIFFERENCES


def ways(cell: str, dead: str = "") -> list[str]:
    """Return the ways of a cell of the table as a layout's file spells them: `Shift AltGr 2F`.

    `dead` is the dead key of the sign; a way with it ends in `dead acute`, say.
    """
    found = []
    for way in cell.removesuffix(" *").split(" | "):
        parts = re.fullmatch(r"((?:\w+\+)*)0x(\w\w)( \(dead\))?", way)
        if parts is None:
            assert way == "-", way
            continue
        words = parts[1].replace("Option", "AltGr").split("+")
        level = 2 * ("AltGr" in words) + ("Shift" in words)
        found.append(f"{LEVEL_WORDS[level]}{parts[2]}{f' dead {dead}' if parts[3] else ''}")
    return found


def elsewhere(name: str, marks: Marks, dead_keys: Mapping[str, Any]) -> dict[str, Any] | None:
    """Return what is known of a layout on Windows and macOS; None where nothing is.

    `dead_keys` are those of `compose.json`.
    """
    if not is_compared(name):
        return None
    listed = rows_of(name)
    dead = {known["sign"]: one for one, known in dead_keys.items()} | {"'": "acute"}
    differ = {system: _differing(listed, system, dead) for system in ("windows", "macos")}
    same = _agreed(name, marks, dead_keys, {row["sign"] for row in listed})
    found = {"same": dict(sorted(same.items())), **differ}
    if name in CAPS_SHIFTS_ALL_ON_WINDOWS:
        found["caps lock shifts every key on"] = ["windows"]
    return found


def _differing(
    listed: Sequence[dict[str, str]], system: str, dead: Mapping[str, str]
) -> dict[str, list[str]]:
    """Return the ways of one system to the signs that are not typed the same way everywhere."""
    found = {row["sign"]: ways(row[SYSTEMS[system]], dead.get(row["sign"], "")) for row in listed}
    return dict(sorted(found.items()))


def _agreed(
    name: str, marks: Marks, dead_keys: Mapping[str, Any], differing: set[str]
) -> dict[str, str]:
    """Return the signs that need AltGr, and the way to each that all systems share.

    Those of which a system has other ways are in its own list.
    """
    spacings = {dead: known["sign"] for dead, known in dead_keys.items()}
    before_space = {dead: known["makes"].get(" ", "") for dead, known in dead_keys.items()}
    told = dict(one.split(" ", 1) for one in AGREED.get(name, ()))
    plain = {*_on_levels(marks, spacings, (0, 1)), *_on_levels(marks, before_space, (0, 1))}
    for sign, there in _on_levels(marks, spacings, (2, 3)).items():
        if sign.isascii() and sign not in plain and sign not in differing and sign not in told:
            assert len(there) == 1, f"{name}: which way to {sign!r} do all share: {there}?"
            told[sign] = there[0]
    for sign, way in told.items():
        assert sign not in differing and way in _on_levels(marks, spacings, (2, 3))[sign]
    return told


def _on_levels(
    marks: Marks, spacings: Mapping[str, str], levels: Sequence[int]
) -> dict[str, list[str]]:
    """Return the ways to the signs, and the dead keys, on some of the levels."""
    found: dict[str, list[str]] = {}
    for usage, of_key in marks.items():
        for level in levels:
            if (mark := of_key[level]) is not None and usage not in (0x32, 0x2C):
                dead = f" dead {mark}" if len(mark) > 1 else ""
                way = f"{LEVEL_WORDS[level]}{usage:02X}{dead}"
                found.setdefault(spacings.get(mark, mark), []).append(way)
    return found
