"""`python -m tests.layouts.make` writes `grammar/layouts/*.json` again, from X11's layouts.

With other releases of xkb-data or libX11 the files change: read what git shows, and update the
version in `grammar/layouts/README.md`.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from xkbcommon import xkb

from tests.layouts.chosen import EVERYWHERE, NAMES, SPACING
from tests.layouts.differences import LEVEL_WORDS, elsewhere
from tests.layouts.writing import pretty
from tests.layouts.x11 import (
    DEAD,
    KEYPAD,
    LOCALE,
    composed,
    key_codes,
    languages,
    mark_of,
    symbols,
    version,
)

FOLDER = Path(__file__).parents[2] / "grammar" / "layouts"
COMPOSE = "compose.json"
WRITING_USAGES = range(0x04, 0x90)
"""The usages that may type a sign: above them are keys for editing and for sounds."""

OF_KEYPAD = (*KEYPAD, 0x67, 0x85, 0x86)
"""After a dead key a few of these make other signs than the main keys, which nobody types so."""

Marks = dict[int, list[str | None]]


def file_name(name: str) -> str:
    """Return the file of a layout by its registry name: `us(intl)` is in `us-intl.json`."""
    return f"{name.rstrip(')').replace('(', '-')}.json"


@functools.cache
def _symbols(name: str) -> dict[int, list[int]]:
    return symbols(name, sorted(usage for usage in key_codes() if usage in WRITING_USAGES))


def marks_of(name: str) -> Marks:
    """Return the signs and dead keys of each key that has any."""
    marks = {usage: [*map(mark_of, of_key)] for usage, of_key in _symbols(name).items()}
    return {usage: of_key for usage, of_key in marks.items() if any(of_key)}


def _caps(name: str, marks: Marks) -> dict[str, Any]:
    """Return on which keys Caps Lock is Shift for the letters, or on all levels, or else what."""
    kinds: dict[str, Any] = {"letters": [], "every level": [], "types": {}}
    for usage, of_key in symbols(name, marks, caps=True).items():
        plain, shifted, third, fourth = marks[usage]
        locked = [*map(mark_of, of_key)]
        hexed = f"{usage:02X}"
        if locked == marks[usage]:
            continue
        if locked == [shifted, plain, third, fourth]:
            kinds["letters"].append(hexed)
        elif locked == [shifted, plain, fourth, third]:
            kinds["every level"].append(hexed)
        else:
            kinds["types"][hexed] = locked
    return {kind: " ".join(found) if kind != "types" else found for kind, found in kinds.items()}


def layout_file(name: str) -> dict[str, Any]:
    """Return what the file of a layout has."""
    marks = marks_of(name)
    keypad = [*_keypad_on_main_keys(name)]
    return {
        "name": name,
        "language": languages()[name],
        "source": f"xkb-data {version()}",
        "caps lock": _caps(name, marks),
        **({"keypad on main keys": keypad} if keypad else {}),
        "keys": {f"{usage:02X}": of_key for usage, of_key in marks.items()},
        "elsewhere": elsewhere(name, marks, compose_file()["dead keys"]),
    }


@functools.cache
def compose_file() -> dict[str, Any]:
    """Return what a dead key and another key make, for each dead key of the layouts."""
    by_mark: dict[str, set[int]] = {}
    for name in NAMES:
        main = [of_key for usage, of_key in _symbols(name).items() if usage not in OF_KEYPAD]
        for symbol in itertools.chain(*main):
            if (mark := mark_of(symbol)) and not _is_keypad(symbol):
                by_mark.setdefault(mark, set()).add(symbol)
    dead = sorted(mark for mark in by_mark if len(mark) > 1)
    table = {one: dict(sorted(_made(one, by_mark))) for one in dead}
    return {
        "source": f"libX11, locale {LOCALE}, read through libxkbcommon",
        "dead keys": {
            one: {
                "sign": made.get(one) or made.get(" ") or SPACING[one],
                "everywhere": EVERYWHERE.get(one, ""),
                "makes": made,
            }
            for one, made in table.items()
        },
    }


def _keypad_on_main_keys(name: str) -> Iterator[str]:
    """Yield where main keys have symbols of the keypad, as `de(neo)` has: they type the same."""
    for usage, of_key in _symbols(name).items():
        for level, symbol in enumerate(of_key):
            if usage not in OF_KEYPAD and _is_keypad(symbol) and mark_of(symbol):
                yield f"{LEVEL_WORDS[level]}{usage:02X}"


def _is_keypad(symbol: int) -> bool:
    return str(xkb.keysym_get_name(symbol)).startswith("KP_")


def _made(dead: str, by_mark: Mapping[str, set[int]]) -> Iterator[tuple[str, str]]:
    first = xkb.keysym_from_name(DEAD + dead)
    for mark, of_mark in by_mark.items():
        made = {composed(first, symbol) for symbol in of_mark}
        assert len(made) == 1, f"dead {dead} and {mark}: {made}"
        if (sign := made.pop()) is not None:
            yield mark, sign


def files() -> dict[str, str]:
    """Return the text of each file, by its name."""
    made = {COMPOSE: compose_file()} | {file_name(name): layout_file(name) for name in NAMES}
    return {name: f"{pretty(document)}\n" for name, document in made.items()}


def main() -> None:
    """Write every file, and take away those of layouts that are no longer made."""
    made = files()
    for path in FOLDER.glob("*.json"):
        if path.name not in made:
            path.unlink()
    for name, text in made.items():
        (FOLDER / name).write_text(text, "utf-8")
    print(f"{len(made)} files, {sum(len(text.encode()) for text in made.values())} bytes")


if __name__ == "__main__":
    main()
