"""Cells that the rest of the file makes likely: what no key sends yet, and what a layer lost."""

from __future__ import annotations

from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.by_name import OFTEN_WITH_CTRL
from matrixgen.editor.offers.cells.sent import sent_by
from matrixgen.model.layers import BASE
from matrixgen.model.plate import stem_of
from matrixgen.usages import is_word, modifier_bit, usage_of

USUAL = tuple(
    map(
        sent_by,
        (
            *("Backspace", "Enter", "Space", "Tab", "Esc", "Delete", ".", "Comma", "Minus", "/"),
            *"1234567890",
            *("Left", "Right", "Up", "Down", "Home", "End", "PgUp", "PgDn"),
            *("'", ";", "Equal", "[", "]", "\\", "`", "F5", "F2", "F1", "KeypadPlus", "Insert"),
        ),
    )
)
"""Keys in the order in which they are missed (common practice, no source)."""

TAKEN, SWAPPED, MOST_MISSED, MISSED, THERE = 4.0, 6.0, 2.6, 1.4, 2.0


def nowhere(around: CellsAround) -> Votes:
    """Yield what no key sends yet, what is missed most first."""
    for place, one in enumerate(USUAL):
        if one not in around.given:
            yield one, MOST_MISSED - place / 20


def taken_away(around: CellsAround) -> Votes:
    """Yield what a key is called and no key sends any more, since it does something else.

    A modifier is not missed like that: it would have to be held beside the layer's key.
    """
    base = around.layers.get(BASE, {})
    for key in base:
        stem = stem_of(key)
        own = sent_by(stem)
        is_lost = is_word(stem) and own not in around.given and not modifier_bit(usage_of(own) or 0)
        if is_lost and not around.is_base:
            yield own, TAKEN


def displaced(around: CellsAround) -> Votes:
    """Yield what a key of this layer sent, if another does its work, or if it is a modifier."""
    there = set(around.cells.values())
    for key, cell in around.cells.items():
        own = sent_by(stem_of(key))
        if not is_word(own) or cell == own:
            continue
        if cell == around.own:
            yield own, SWAPPED + (0 if own not in there else THERE)
        elif modifier_bit(usage_of(own) or 0):
            yield own, MISSED


def often_with_ctrl(around: CellsAround) -> Votes:
    """Yield what programs act on, for an action and for a key with a name of its own."""
    if not around.own or "+" in around.asked.word:
        count = TAKEN if around.asked.block == "actions" else MISSED / 2
        for place, letter in enumerate(OFTEN_WITH_CTRL):
            yield f"{sent_by('Ctrl')}+{letter}", count - place / 50
