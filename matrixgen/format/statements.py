"""What of a statement stands in which column: its row."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.parts import Part, spaced
from matrixgen.format.rows import Row
from matrixgen.record import changed
from matrixgen.source.statements.key_lists import KEYS_AFTER, WIRES, end_of_pins

SETTINGS = frozenset(
    {
        *("controller", "debounce", "maker", "usb", "boot_hold", "double_reset"),
        *("once_lasts", "remember", "allow"),
    }
)


def row_of(rule: str | None, parts: Sequence[Part]) -> Row:
    """Return the row of a statement that is no row of cells."""
    words = parts[0].words
    if len(parts) == 1:
        return _row(rule, words)
    if rule in WIRES and _ends_among_keys(parts):
        return changed(_wire(words), may_wrap=False)
    return Row(group=None, fields=(spaced(words),))


def _row(rule: str | None, words: Sequence[str]) -> Row:
    if rule in WIRES:
        return _wire(words)
    if rule == "action":
        return Row(group="action", fields=(words[0],), keys=(spaced(words[1:]),), may_wrap=False)
    heads = KEYS_AFTER.get(rule or "", len(words))
    keys = tuple(words[heads:])
    if rule in SETTINGS:
        values = (spaced(words[1:heads]), *keys)
        return Row(group="setting", fields=(words[0],), keys=values, may_wrap=bool(keys))
    return Row(group=None, fields=(spaced(words[:heads]),), keys=keys)


def _wire(words: Sequence[str]) -> Row:
    """Return the row of a wire: its axis, name, pins and colour in columns, then its keys."""
    pins = end_of_pins(words)
    colour = pins + 2 if words[pins : pins + 1] == ("wire",) else pins
    fields = (words[0], spaced(words[1:2]), spaced(words[2:pins]), spaced(words[pins:colour]))
    return Row(group="wire", fields=fields, keys=tuple(words[colour:]), gap="  ")


def _ends_among_keys(parts: Sequence[Part]) -> bool:
    """Whether the first part of a wire has all that stands before its keys."""
    words, following = parts[0].words, parts[1].words[0]
    whole = len(words) > 1 and end_of_pins(words) <= len(words)
    return whole and words[-1] not in ("on", "wire", ",") and following not in ("on", "wire", ",")
