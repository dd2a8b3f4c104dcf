"""What is wrong with a layout, judged by libxkbcommon: the ways that type something else there."""

from __future__ import annotations

from collections.abc import Iterator
from unicodedata import normalize

from matrixgen.layouts import HostLayout, KeyStroke
from tests.layouts.x11 import LEVELS, x11_text


def wrong_ways(layout: HostLayout) -> Iterator[str]:
    """Yield each sign whose way does not type it, on X11 or for the layout itself."""
    for sign in layout.typable():
        way = layout.way(sign)
        assert way is not None
        typed = x11_text(layout.name, [(stroke.usage, stroke.modifiers) for stroke in way])
        if {normalize("NFC", text) for text in (typed, layout.typed(way))} != {sign}:
            yield f"{sign!r} by {way}: {typed!r}, {layout.typed(way)!r}"


def wrong_strokes(layout: HostLayout, *, caps: bool) -> Iterator[str]:
    """Yield each stroke of which X11 makes another sign."""
    for usage in layout.usages:
        for modifiers in LEVELS:
            typed = layout.typed([KeyStroke(usage, modifiers)], caps)
            there = x11_text(layout.name, [(usage, modifiers)], caps=caps)
            if typed != there:
                yield f"0x{usage:02X} with 0x{modifiers:02X}: {typed!r}, X11 {there!r}"
