"""What a word of a file names, and every other place that names the same."""

from __future__ import annotations

from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.positions import LineColumn
from matrixgen.merge.rewrite import NAMED
from matrixgen.record import Record
from matrixgen.source.letters import name_of_key


class Thing(Record):
    """Something that a file names: its kind, such as `key`, and its name."""

    kind: str
    name: str


def word_at(words: FileWords, place: LineColumn) -> WordAt | None:
    """Return the word at a place, or the one that ends there."""
    line, column = place
    here = [one for one in words.all if one.span.line == line and one.span.column <= column]
    found = [one for one in here if column <= one.span.end_column]
    return found[-1] if found else None


def things(words: FileWords, one: WordAt) -> tuple[Thing, ...]:
    """Return what a word names: a place of an `allow` may name things of several kinds."""
    kind = NAMED.get(one.terminal)
    if kind is None:
        return ()
    name = _name(one)
    if one.rule == "allow" and kind == "key":
        each = (Thing(other, name) for other in dict.fromkeys(NAMED.values()))
        return tuple(thing for thing in each if definition(words, thing))
    thing = Thing(kind, name)
    return (thing,) if definition(words, thing) or one.terminal != "CELL" else ()


def definition(words: FileWords, thing: Thing) -> WordAt | None:
    """Return the word that gives a thing its name."""
    for terminal, kind in NAMED.items():
        for one in words.defined.get(terminal, ()) if kind == thing.kind else ():
            if _name(one) == thing.name:
                return one
    return None


def _name(one: WordAt) -> str:
    return name_of_key(one.text) if NAMED[one.terminal] == "key" else one.text


def uses(words: FileWords, thing: Thing) -> list[WordAt]:
    """Return every word that names a thing, its definition too, in file order."""
    return [one for one in words.of(*NAMED) if thing in things(words, one)]
