"""Records that note which of their fields are read, so that what was made of them can be kept.

A rule gets a keyboard whose fields are watched. What it found holds as long as each field that it
read is as it was. What is worked out once for several rules, a `cached_property`, is worked out for
a reader of its own; whoever asks for it has read all that this reader has, or ever will: it may
look at more of its keyboard later.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any

from matrixgen.record import Record

FieldRead = tuple[type, str]
"""A field that was read: the class of its record, and its name."""


class Reader:
    """Who reads: the fields that it has read itself, and the readers of what it was given."""

    def __init__(self) -> None:
        self.own: set[FieldRead] = set()
        self.given: set[Reader] = set()

    @property
    def fields(self) -> frozenset[FieldRead]:
        """Every field that was read, by itself or for what it was given."""
        found, waiting = {self}, [self]
        while waiting:
            new = waiting.pop().given - found
            found |= new
            waiting += new
        return frozenset(field for one in found for field in one.own)


class Watch:
    """A record that several readers share, and what was worked out once for all of them."""

    def __init__(self, record: Record, parts: dict[str, Watch] | None = None) -> None:
        """`parts` has those of its fields that are watched themselves, by name."""
        self.record, self._parts = record, parts or {}
        self._worked_out: dict[str, tuple[Any, Reader]] = {}

    def seen_by(self, reader: Reader) -> Any:
        """Return the record as one reader sees it."""
        seen = object.__new__(_watched_class(type(self.record)))
        fields = {name: self.record.__dict__[name] for name in self.record.__match_args__}
        seen.__dict__.update(fields, _watch=self, _reader=reader)
        return seen

    def part(self, name: str) -> Watch | None:
        """Return the field of a name, if it is watched itself."""
        return self._parts.get(name)

    def worked_out(self, name: str, by: cached_property[Any], reader: Reader) -> Any:
        """Return a property that is worked out once, and note who was given it."""
        if name not in self._worked_out:
            own = Reader()
            self._worked_out[name] = by.func(self.seen_by(own)), own
        value, own = self._worked_out[name]
        reader.given.add(own)
        return value


_classes: dict[type[Record], type[Record]] = {}


def _watched_class(kind: type[Record]) -> type[Record]:
    """Return a class of records that are of a kind in all, but note who reads them."""
    if kind not in _classes:
        _classes[kind] = _made_class(kind)
    return _classes[kind]


def _made_class(kind: type[Record]) -> type[Record]:
    once = {
        name: value
        for base in reversed(kind.__mro__)
        for name, value in vars(base).items()
        if isinstance(value, cached_property)
    }
    fields = {name: _field(kind, name) for name in kind.__match_args__}
    each = {name: _worked_out(name, by) for name, by in once.items()}

    def values(self: Any) -> tuple[Any, ...]:
        return tuple(getattr(self, name) for name in self.__match_args__)

    body = {"__annotations__": {}, "_values": values, **fields, **each}
    return type(kind.__name__, (kind,), body)


def _field(kind: type[Record], name: str) -> property:
    """Return a field that notes who reads it; a copy with other values is not watched."""
    read = kind, name

    def get(self: Any) -> Any:
        kept = self.__dict__
        watch = kept.get("_watch")
        if watch is None:
            return kept[name]
        part = watch.part(name)
        if part is not None:
            return part.seen_by(kept["_reader"])
        kept["_reader"].own.add(read)
        return kept[name]

    return property(get)


def _worked_out(name: str, by: cached_property[Any]) -> property:
    """Return a property that is worked out once for all who read it."""

    def get(self: Any) -> Any:
        kept = self.__dict__
        if "_watch" in kept:
            return kept["_watch"].worked_out(name, by, kept["_reader"])
        if name not in kept:
            kept[name] = by.func(self)
        return kept[name]

    return property(get)
