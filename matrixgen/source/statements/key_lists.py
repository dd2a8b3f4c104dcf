"""Statements that list keys: where in them the keys begin."""

from __future__ import annotations

from collections.abc import Sequence

WIRES = frozenset({"row", "column"})
"""The statements that have pins and a colour before their keys."""

KEYS_AFTER = {"row": 2, "column": 2, "without": 2, "reversed": 1, "allow": 2, "boot_hold": 2}
"""How many words stand before a statement's keys, or before a wire's pins, by the rule."""


def end_of_pins(words: Sequence[str]) -> int:
    """Return the place after `on PIN, PIN` in a wire's words, or where it would begin."""
    end = KEYS_AFTER["row"]
    if words[end : end + 1] and words[end] == "on":
        end += 2
        while words[end : end + 1] and words[end] == ",":
            end += 2
    return end
