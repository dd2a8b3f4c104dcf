"""Which signs a layout makes of presses, and which of its signs people type."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.layouts import HostLayout, layout_named
from matrixgen.layouts.marks import is_dead_mark
from matrixgen.layouts.ranks import ALL_KEYPADS, BESIDE_SHIFT, MAIN_BLOCK
from matrixgen.layouts.strokes import level_of
from matrixgen.model import Press

MAIN_KEYS = (*MAIN_BLOCK, BESIDE_SHIFT)
"""The keys of the main block, with the one beside the left Shift key."""

ASCII = frozenset(map(chr, range(0x20, 0x7F)))


def wanted_signs(layout: HostLayout) -> frozenset[str]:
    """Return ASCII, and what the main keys have with Shift or nothing, as far as there is a way.

    So it is without the many signs behind AltGr, and without letters that only dead keys make.
    """
    on_keys = {layout.mark(usage, level) for usage in MAIN_KEYS for level in (0, 1)}
    signs = {mark for mark in on_keys if mark and not is_dead_mark(mark)}
    return frozenset(sign for sign in ASCII | signs if layout.way(sign))


def typed_signs(
    presses: Iterable[Press], layout: HostLayout, others: Iterable[Press] = ()
) -> frozenset[str]:
    """Return the signs that presses make, alone or behind a dead key, with what holds modifiers.

    No key holds modifiers beside `others`.
    Without a system they are those that Linux and Windows share, where both are known.
    """
    layouts = [layout]
    if layout.system is None and layout.is_compared:
        windows = layout_named(layout.name, "windows")
        layouts += [windows] if windows else []
    presses, others = list(presses), list(others)
    found = [_signs(presses, others, one) for one in layouts]
    return frozenset.intersection(*found)


def _signs(presses: list[Press], others: list[Press], layout: HostLayout) -> frozenset[str]:
    marks = {
        place: mark for place in _places(presses, others, layout) if (mark := layout.mark(*place))
    }
    dead = {mark for mark in marks.values() if is_dead_mark(mark)}
    after = {mark for (usage, _), mark in marks.items() if usage not in ALL_KEYPADS}
    made = {layout.pair(one, mark) for one in dead for mark in after}
    return frozenset(sign for sign in {*marks.values(), *made} if len(sign) == 1)


def held_together(presses: Iterable[Press]) -> set[int]:
    """Return all modifiers that may be held at once, by those of the presses that have no key."""
    held = {0}
    for mask in {one.modifiers for one in presses if not one.usage}:
        held |= {one | mask for one in held}
    return held


def _places(presses: list[Press], others: list[Press], layout: HostLayout) -> set[tuple[int, int]]:
    """Return the keys and levels that presses reach while other keys may hold modifiers."""
    held = held_together(presses)
    made = {(one.usage, one.modifiers | modifiers) for one in presses for modifiers in held}
    made |= {(one.usage, one.modifiers) for one in others}
    return {
        (usage, level)
        for usage, modifiers in made
        if usage and (level := level_of(modifiers, layout.system)) is not None
    }
