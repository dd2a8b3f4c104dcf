"""What a file says, without where it says it: two files that mean the same are equal here.

Every field of every record counts, but for places, for what is only a way of writing, and for what
follows from other fields; each of these is marked at the field (`work.py`). What can be written in
several ways is turned into one: see `INSTEAD`.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Mapping
from typing import Any

from matrixgen.model.actions import Behaviour
from matrixgen.model.design import Design
from matrixgen.model.geometry import centre_of
from matrixgen.model.layers import Layer
from matrixgen.model.plate import CornerOutline, Key
from matrixgen.model.rings import in_order
from matrixgen.model.text import Number, Word
from matrixgen.model.work import Field, fields_of
from matrixgen.record import Record

Meaning = dict[str, Any]
"""Plain values by the names of their fields: texts, numbers, tuples, sets and further meanings."""

DIGITS = 6
"""Digits of a key unit that count: 0.00002 mm. What lies below is rounding."""


def meaning_of(design: Design) -> Meaning:
    """Return what a file says: the keyboard, its mountings, and what it does not want to hear."""
    return said_by(design)


def mounted_meaning(design: Design) -> Meaning:
    """Return what would be built: a file's meaning but for its allowances."""
    meaning = meaning_of(design)
    del meaning["allowances"]
    return meaning


def said_by(record: Record, *, but: Container[str] = ()) -> Meaning:
    """Return what a record says: by its name each field that says something, `but` some."""
    kind: type = type(record)
    replaced, instead = INSTEAD.get(kind, ((), _nothing))
    meaning = {
        field.name: _said(field, getattr(record, field.name))
        for field in fields_of(kind)
        if field.is_said and field.name not in replaced and field.name not in but
    }
    return meaning | instead(record)


def _said(field: Field, value: Any) -> Any:
    if field.kind == "Span | None":
        return value is not None
    if "anyorder" in field.marks:
        return frozenset(map(_frozen, value))
    return _plain(value)


def _plain(value: Any) -> Any:
    match value:
        case Word():
            return value.text
        case Number():
            return value.value
        case float():
            return _rounded(value)
        case Behaviour():
            return value
        case Record():
            return said_by(value)
        case tuple():
            return tuple(map(_plain, value))
        case Mapping():
            return {name: _plain(one) for name, one in value.items()}
        case _:
            return value


def _frozen(value: Any) -> Any:
    """Return what a member of a set says: of a record, what its fields say, in their order."""
    plain = _plain(value)
    return tuple(plain.values()) if isinstance(plain, dict) else plain


def _rounded(length: float) -> float:
    return round(length, DIGITS) + 0.0  # there is no -0.0


def _nothing(_: Any) -> Meaning:
    return {}


def _key(key: Key) -> Meaning:
    """Return where a key lies, whatever corner its cluster is measured from."""
    x, y = centre_of(key)
    return {"centre": (_rounded(x), _rounded(y)), "turned": _rounded(key.turned % 360)}


def _layer(layer: Layer) -> Meaning:
    """Return cells by their keys, and sets by theirs, whichever is named first."""
    return {
        "cells": {cell.key.text: said_by(cell)["action"] for cell in layer.cells},
        "together": {
            tuple(sorted(one.key_names)): (one.action, one.within_ms) for one in layer.together
        },
    }


def _outline(outline: CornerOutline) -> Meaning:
    """Return the corners, whichever of them is named first and whichever way they go round."""
    rounded = [(_rounded(x), _rounded(y)) for x, y in outline.corners]
    return {"corners": in_order(rounded)}


INSTEAD: Mapping[type, tuple[tuple[str, ...], Callable[[Any], Meaning]]] = {
    Key: (("x", "y", "turned", "pivot_x", "pivot_y"), _key),
    Layer: (("cells", "together"), _layer),
    CornerOutline: (("corners",), _outline),
}
"""Fields of a record that can be written in several ways, and what they say in one."""
