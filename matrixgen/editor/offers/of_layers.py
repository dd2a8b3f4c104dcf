"""Names of layers, actions, wires and clusters: those that are used and not there yet first."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.editor.file_words import WordAt
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.offer import Offer
from matrixgen.model.layers import BASE
from matrixgen.source.parts import WIRES
from matrixgen.source.patterns import pattern
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.usages import is_spelling

WAITED_FOR, LIKELY, OTHER = 0.0, 1.0, 2.0


def layer_cells(asked: Cursor) -> list[tuple[str, str]]:
    """Return the keys of a list's other lines, with their rules, or of a picture no keys."""
    own = [
        one
        for one in asked.rest_of_file.all
        if one.block == "layer" and asked.source.header_of(one.span.line) == asked.header_line
    ]
    keys = [(one.text, one.rule) for one in own if one.terminal == "KEY"]
    return keys or [("", one.rule) for one in own if one.rule == "picture_line"]


def _words_of(one: WordAt) -> tuple[str, ...]:
    """Return the words of a statement, if this one is the first of its names."""
    return tuple(one.statement.words) if one.is_first else ()


def layers(asked: Cursor) -> Iterator[Offer]:
    """Yield layers: for a new one those that keys lead to, and for a key those that none does."""
    words = asked.rest_of_file
    missing = words.undefined("LAYER_NAME")
    if asked.is_header and asked.words_before == ("layer",):
        for name in missing:
            if name != BASE:
                yield Offer(name, WAITED_FOR, "keys lead to it")
        if BASE not in words.names("LAYER_NAME"):
            yield Offer(BASE, LIKELY, "the layer that is always on")
        return
    used = {one.text for one in words.of("LAYER_NAME") if one.rule != "layer"}
    here = asked.source.line(asked.header_line).split()[1:2] if asked.block == "layer" else []
    by_others = {one.text for one in words.of("LAYER_NAME") if "while" in _words_of(one)}
    for name in dict.fromkeys((*missing, *words.names("LAYER_NAME"))):
        rank = OTHER if name in used or name == BASE or name in by_others else WAITED_FOR
        rank += (name == BASE and "base" not in asked.words_before) + 2 * (name in here)
        yield Offer(name, rank, "" if name in used else "no key leads to it yet")


def new_actions(asked: Cursor) -> Iterator[Offer]:
    """Yield names that cells have and that are no words for keys."""
    known = asked.rest_of_file.names("ACTION_NAME")
    for text in asked.rest_of_file.texts("CELL"):
        is_plain = pattern(r"\w[\w-]*").fullmatch(text) and not is_spelling(text)
        if is_plain and text not in known and text not in FIRST_WORDS:
            yield Offer(text, WAITED_FOR, "a cell has it")


def wires(asked: Cursor) -> Iterator[Offer]:
    """Yield names for a wire: the number that its kind lacks, or the next one."""
    names = asked.rest_of_file.names("WIRE_NAME")
    wires = (wire for wire in asked.rest_of_file.wires if wire.rule == asked.rule_word)
    mine = [name for wire in wires for name in wire.named("WIRE_NAME")] or [
        f"{asked.rule_word[:1]}0"
    ] * (asked.rule_word in WIRES)
    numbered = [found for name in mine if (found := pattern(r"(.*?)(\d+)").fullmatch(name))]
    stems = dict.fromkeys(found[1] for found in numbered)
    for stem in stems or (asked.rule_word[:1],):
        taken = {int(found[2]) for found in numbered if found[1] == stem}
        for number in range(33):
            if f"{stem}{number}" not in names:
                yield Offer(f"{stem}{number}", WAITED_FOR + (number > max(taken, default=0)))
                if number > max(taken, default=0):
                    break


def clusters(asked: Cursor) -> Iterator[Offer]:
    """Yield clusters to mirror, or usual names for a new one."""
    words = asked.rest_of_file
    names = words.names("CLUSTER_NAME")
    if "mirrors" in asked.words_before:
        yield from (Offer(name, WAITED_FOR) for name in names)
        return
    for name in words.undefined("CLUSTER_NAME"):
        yield Offer(name, WAITED_FOR, "mirrored by another")
    for place, name in enumerate(("left", "right", "thumb", "left-thumb", "right-thumb")):
        if name not in names:
            yield Offer(name, LIKELY + place / 10)
