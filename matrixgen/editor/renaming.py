"""Another name for a key, wire, layer, cluster or action, everywhere it stands.

A key that does what its name says would do something else under another name: then `layer base`
says what it did. The file must mean the same afterwards, or nothing is renamed.
"""

from __future__ import annotations

from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.names import Thing, definition, things, uses
from matrixgen.editor.open_file import OpenText
from matrixgen.editor.rewriting import at_the_end
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import Examined
from matrixgen.model import Edit, Span
from matrixgen.model.layers import BASE
from matrixgen.model.plate import stem_of
from matrixgen.record import Record
from matrixgen.source.edits import edited
from matrixgen.source.letters import name_of_key
from matrixgen.source.tree import BlockTree

FIXED = {("layer", BASE): "`layer base` is the layer that is always on, and has to be called so"}


class Renamed(Record):
    """The edits that rename a thing, and what was done besides, if anything was."""

    edits: tuple[Edit, ...]
    also: str | None


def renamed(text: OpenText, word: WordAt, new: str) -> Renamed | str:
    """Return the edits that give a thing another name, or why that cannot be."""
    words = text.words
    named = things(words, word)
    if len(named) != 1 or definition(words, named[0]) is None:
        return f"`{word.text}` is no name that this file gives"
    (thing,) = named
    if refused := FIXED.get((thing.kind, thing.name)) or _taken(words, thing, new):
        return refused
    edits = tuple(Edit(one.span, new) for one in uses(words, thing))
    before = text.read
    if before.design is None:
        return "the file has a mistake that has to be put right first"
    more = _kept_action(text, words, thing, name_of_key(new)) if thing.kind == "key" else None
    if isinstance(more, str):
        return more
    made = Renamed((*edits, *(more or ())), _says(more))
    return _why_not(text, before, made) or made


def _taken(words: FileWords, thing: Thing, new: str) -> str | None:
    """Return that a name is another thing's, capitals apart."""
    for one in words.of("CELL") if thing.kind == "action" else ():
        if one.text.casefold() == new.casefold() and one.text != thing.name:
            return f"a cell already says `{one.text}`, and would then be this action"
    for some in words.defined.values():
        for one in some:
            is_same = any(other.kind == thing.kind for other in things(words, one))
            if is_same and one.text.casefold() == new.casefold() and one.text != thing.name:
                return f"there is already a {thing.kind} `{one.text}`"
    return None


def _kept_action(
    text: OpenText, words: FileWords, key: Thing, new: str
) -> tuple[Edit, ...] | str | None:
    """Return the edit that lets a key do what it did by its name; None where it needs none."""
    design = text.read.design
    assert design
    base = design.keyboard.layers[0]
    cell = base.by_key.get(key.name)
    old, stem = stem_of(key.name), stem_of(new)
    if cell is None or cell.given or old.casefold() == stem.casefold():
        return None
    layer = next((one for one in text.tree.blocks if one.header.words == ("layer", BASE)), None)
    if layer is None:
        end = Span.over(text.source.path, text.source.end, text.source.end)
        gap = "" if text.source.text.endswith("\n") else "\n"
        return (Edit(end, f"{gap}\nlayer {BASE}\n  {new} = {old}\n"),)
    if base.is_picture:
        return _in_picture(words, layer, key.name, old)
    return (at_the_end(text, layer, f"{new} = {old}"),)


def _in_picture(words: FileWords, layer: BlockTree, key: str, old: str) -> tuple[Edit, ...] | str:
    rows = [id(one) for one in layer.statements if one.rule == "picture_line"]
    cells = [one for one in words.of("CELL", "SEE_THROUGH") if id(one.statement) in rows]
    if len(cells) != len(words.keys):
        return "the picture of `layer base` has not the plate's shape"
    return (Edit(cells[words.keys.index(key)].span, old),)


def _says(more: tuple[Edit, ...] | None) -> str | None:
    if not more:
        return None
    return (
        f"`layer {BASE}` now says what the key's name said: {more[0].text.split(BASE)[-1].strip()}"
    )


def _why_not(text: OpenText, before: Examined, made: Renamed) -> str | None:
    """Return what speaks against a new name: a finding of the reader, or another meaning."""
    new = edited(text.source, made.edits)
    if new is None:
        return "its places overlap"
    after = text.read_as(new)
    if after.design is None:
        return next(one.message for one in after.findings if one.is_error)
    if compared(before, after).kind not in ("none", "cosmetic"):
        return "the keyboard would then do something else"
    return None
