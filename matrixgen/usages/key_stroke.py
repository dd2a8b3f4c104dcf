"""One press of a key of the keyboard page together with modifiers."""

from __future__ import annotations

from matrixgen.record import Record


class KeyStroke(Record):
    """A usage of page 0x07, or 0 for none, and modifiers: bit n for usage 0xE0 + n."""

    usage: int
    modifiers: int = 0
