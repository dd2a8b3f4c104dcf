"""All that may be written at a place, in order."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from matrixgen.editor.finite import words_of_terminal
from matrixgen.editor.offers import of_cells, of_keys, of_known, of_layers, of_pins, of_words
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.offer import Offer
from matrixgen.editor.open_file import OpenText
from matrixgen.record import changed

BY_TERMINAL: dict[str, Callable[[Cursor], Iterator[Offer]]] = {
    "ACTION_NAME": of_layers.new_actions,
    "BOARD_NAME": of_known.controllers,
    "CELL": of_cells.cells,
    "CLUSTER_NAME": of_layers.clusters,
    "COLOUR": of_known.colours,
    "DIODE_NAME": of_known.diodes,
    "KEY": of_keys.keys,
    "LAYER_NAME": of_layers.layers,
    "LAYOUT_NAME": of_known.layouts,
    "LIGHT_COLOUR": of_known.light_colours,
    "PIN": of_pins.pins,
    "SCREW": of_known.screws,
    "SEE_THROUGH": of_cells.left_alone,
    "SLUG": of_known.findings,
    "SYSTEM_NAME": of_known.systems,
    "TO": of_keys.run_word,
    "WIRE_NAME": of_layers.wires,
}
"""Kinds of words that are offered in a way of their own; all others need no row."""


def offers_at(text: OpenText, line: int, column: int) -> list[Offer]:
    """Return what may be written at a place of a file, the likeliest first, each word once."""
    asked = Cursor(text, line, column)
    if asked.is_in_comment:
        return []
    found: dict[str, Offer] = {}
    modifiers = asked.word[: asked.word.rfind("+") + 1] if "CELL" in asked.expected else ""
    for terminal in ["CELL"] if modifiers else sorted(asked.expected):
        for one in _of(asked, terminal):
            one = changed(one, text=modifiers + one.text, terminal=terminal)
            if one.text not in found or one.rank < found[one.text].rank:
                found[one.text] = one
    return sorted(found.values(), key=lambda one: one.rank)


def _of(asked: Cursor, terminal: str) -> Iterator[Offer]:
    if terminal in BY_TERMINAL:
        return BY_TERMINAL[terminal](asked)
    if words_of_terminal(terminal):
        return of_words.word_offers(asked, terminal)
    return of_words.elsewhere(asked, terminal)
