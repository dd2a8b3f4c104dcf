"""A statement in parts, and put together again from parts of several versions of it.

A part has its words, and the blanks before it: so other words can stand between the same blanks.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from matrixgen.merge.three import Id
from matrixgen.record import Record, changed
from matrixgen.source.parts import KEYS
from matrixgen.source.tree import Part, Piece, Statement


class Split(Record):
    """A statement in parts, and what follows its last word."""

    parts: tuple[Part, ...]
    tail: tuple[Piece, ...]

    @property
    def ids(self) -> tuple[Id, ...]:
        """The names of the parts."""
        return tuple(part.id for part in self.parts)

    def part(self, id: Id) -> Part | None:
        """Return the part of that name, if there is one."""
        return next((part for part in self.parts if part.id == id), None)


def split(statement: Statement) -> Split:
    """Return a statement's parts."""
    return Split(statement.parts, statement.tail)


def has_run(statement: Statement | None) -> bool:
    """Whether there is a run among the keys of a statement."""
    return statement is not None and any(part.id == KEYS for part in statement.parts)


def keys_as_one(split: Split) -> Split:
    """Return parts of which all keys are one: those that end the statement."""
    before = tuple(takewhile(lambda part: not is_of_keys(part), split.parts))
    keys = split.parts[len(before) :]
    if not keys:
        return split
    first, *others = keys
    text = (*first.text, *(piece for one in others for piece in (*one.lead, *one.text)))
    return changed(split, parts=(*before, Part(KEYS, first.lead, text)))


def is_of_keys(part: Part) -> bool:
    """Whether a part is a key, or a run of keys."""
    return part.id[0] in ("key", "keys")


def joined(frame: Statement, parts: Sequence[Part], tail: Sequence[Piece]) -> Statement:
    """Return a statement made of parts."""
    pieces = [piece for part in parts for piece in (*part.lead, *part.text)]
    return changed(frame, pieces=(*pieces, *tail))
