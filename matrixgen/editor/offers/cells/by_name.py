"""Cells that the name of the key suggests, or of the action."""

from __future__ import annotations

import unicodedata
from functools import cache

from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.sent import sent_by
from matrixgen.editor.offers.neighbours import ROWS
from matrixgen.layouts import layout_named
from matrixgen.source.patterns import pattern

COMMANDS = {
    "undo": "Ctrl+Z",
    "redo": "Ctrl+Y",
    "cut": "Ctrl+X",
    "copy": "Ctrl+C",
    "paste": "Ctrl+V",
    "save": "Ctrl+S",
    "find": "Ctrl+F",
    "print": "Ctrl+P",
    "open": "Ctrl+O",
    "new": "Ctrl+N",
    "close": "Ctrl+W",
    "all": "Ctrl+A",
    "bold": "Ctrl+B",
}
"""What programs call commands, and the keys for them (common practice, no source)."""

WAYS = {
    "north": "Up",
    "up": "Up",
    "west": "Left",
    "left": "Left",
    "south": "Down",
    "down": "Down",
    "east": "Right",
    "right": "Right",
}
"""Words for a way, and the way that arrows have for it."""

OFTEN_WITH_CTRL = ("C", "V", "X", "Z", "S", "A", "F", "N")
"""Letters that programs act on with Ctrl (common practice, no source)."""

INSTEAD = {
    "Backspace": "Delete",
    "Left": "Home",
    "Right": "End",
    "Up": "PgUp",
    "Down": "PgDn",
    "Esc": "`",
    "Tab": "Esc",
    "Minus": "F11",
    "Equal": "F12",
}
"""What a key often does on another layer (common practice, no source)."""

SURE, LIKELY, MAYBE = 8.0, 4.0, 2.0


def parts_of_name(name: str) -> list[str]:
    """Return the words that a name is made of: by its capitals, or by what is between letters."""
    return [one.casefold() for one in pattern(r"[A-Z]?[a-z]+|[A-Z]+(?![a-z])|\d+").findall(name)]


def own_name(around: CellsAround) -> Votes:
    """Yield what the name of the key says, and what such a key often does on another layer."""
    if around.own and not around.is_base:
        is_told_apart = around.key != around.stem
        yield around.own, MAYBE if is_told_apart else -MAYBE
        yield from ((sent_by(two), LIKELY) for one, two in INSTEAD.items() if _is(around, one))
        if around.own in OFTEN_WITH_CTRL:
            yield f"{sent_by('Ctrl')}+{around.own}", MAYBE + 1
        yield from _digits_above(around.own)


def _is(around: CellsAround, word: str) -> bool:
    return around.own == sent_by(word)


def _digits_above(own: str) -> Votes:
    """Yield the digit above a letter of the upper row, and the function key above that."""
    place = ROWS[0].find(own) if len(own) == 1 else -1
    if 0 <= place < 10:
        digit = ROWS[3][place + 1]
        yield digit, MAYBE
        yield f"F{int(digit) or 10}", MAYBE / 2


def commands(around: CellsAround) -> Votes:
    """Yield the keys of the command that a key's or an action's name speaks of."""
    asked = around.asked
    for part in parts_of_name(asked.rule_word if asked.block == "actions" else around.stem):
        if part in COMMANDS:
            yield sent_by(COMMANDS[part]), SURE


def ways(around: CellsAround) -> Votes:
    """Yield ways that a key's name speaks of: of the pointer, of the wheel by a knob, of arrows."""
    knobs = around.asked.rest_of_file.texts("KNOB_NAME")
    for part in parts_of_name(around.key):
        way = WAYS.get(part)
        if way and around.stem in knobs:
            flat = way in ("Left", "Right")
            turned = {"Left": "Down", "Right": "Up"}.get(way, way)
            yield from ((f"{one}{turned}", LIKELY) for one in ("Volume", "Wheel"))
            yield f"Wheel{way}", LIKELY - MAYBE / 2 * flat
        elif way and not around.own:
            yield sent_by(way), LIKELY
            yield f"Pointer{way}", LIKELY + (any("Pointer" in one for one in around.given))


def signs(around: CellsAround) -> Votes:
    """Yield signs that Unicode has such a name for."""
    parts = parts_of_name(around.stem)
    if around.own or not parts:
        return
    for place, (sign, called) in enumerate(_signs_of(around.asked)):
        if any(len(part) > 1 and part in called for part in parts):
            yield sign, LIKELY + 1
        elif len(parts) > 1 and parts[-1] in called:
            yield sign, MAYBE + 1 - place / 1000


def initial(around: CellsAround) -> Votes:
    """Yield the first letter of a name."""
    if not around.own and around.stem[:1].isascii() and around.stem[:1].isalpha():
        yield around.stem[0].upper(), MAYBE - 1


def _signs_of(asked: Cursor) -> tuple[tuple[str, tuple[str, ...]], ...]:
    names = asked.rest_of_file.texts("LAYOUT_NAME")
    return _called(names[0]) if names else ()


@cache
def _called(name: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the signs of a layout besides plain letters and digits, and the words for each.

    Those that need the fewest strokes and modifiers come first.
    """
    layout = layout_named(name)
    found = []
    for sign in layout.typable() if layout else ():
        if not (sign.isascii() and sign.isalnum()) and not sign.isupper():
            way = (layout and layout.way(sign)) or ()
            called = unicodedata.name(sign, "").casefold().replace("-", " ").split()
            found.append((sum(1 + (one.modifiers != 0) for one in way), sign, tuple(called)))
    return tuple((sign, called) for _, sign, called in sorted(found))


def spelt_like(words: tuple[str, ...], name: str) -> Votes:
    """Yield actions that are called like the key."""
    for word in words:
        if parts_of_name(word) == parts_of_name(name):
            yield word, SURE
