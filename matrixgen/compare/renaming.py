"""Facts in which keys, wires, layers and actions have other names, or are gone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from matrixgen.compare.facts import CellNames, CellPlace, FactPath, Facts
from matrixgen.compare.pairs import left
from matrixgen.model import other_axis
from matrixgen.model.actions import Behaviour
from matrixgen.record import Record


class Renames(Record, kw_only=True):
    """New names by old ones, of what is called otherwise in the new file."""

    keys: Mapping[str, str]
    lines: Mapping[str, str]
    layers: Mapping[str, str]
    actions: Mapping[str, str]


class Gone(Record, kw_only=True):
    """The old names of what the new file has no longer."""

    keys: frozenset[str]
    lines: frozenset[str]
    layers: frozenset[str]
    actions: frozenset[str]


ABOUT = {
    "key": "keys",
    "hand": "keys",
    "without_diode": "keys",
    "reversed": "keys",
    "without_stabiliser": "keys",
    "line": "lines",
    "visits": "lines",
    "wire": "lines",
    "pin": "lines",
    "action": "actions",
    "cell": "layers",
    "together": "layers",
    "layer": "layers",
}
"""What the second word of a path names, by the first."""

OF_KEYS = ("cell", "together")
"""Kinds of facts whose paths end with keys, after the layer."""


def without(facts: Facts, gone: Gone) -> Facts:
    """Return facts with all that is said of what is gone left out, and no mention of it."""
    kept = {path: value for path, value in facts.items() if not _is_of(path, gone)}
    lines = kept["plate",]
    kept["plate",] = tuple((cluster, tuple(left(keys, gone.keys))) for cluster, keys in lines)
    kept["lines",] = tuple(left(kept["lines",], gone.lines))
    kept["layers",] = tuple(left(kept["layers",], gone.layers))
    kept["boot loader", "hold"] = kept["boot loader", "hold"] - gone.keys
    visits = {path: keys for path, keys in kept.items() if path[0] == "visits"}
    return kept | {path: tuple(left(keys, gone.keys)) for path, keys in visits.items()}


def _is_of(path: FactPath, gone: Gone) -> bool:
    about = ABOUT.get(path[0])
    if path[0] in OF_KEYS and not gone.keys.isdisjoint(path[2:]):
        return True
    return about is not None and path[1] in getattr(gone, about)


def transposed(facts: Facts) -> Facts:
    """Return facts in which rows are called columns, and columns rows: the same circuit."""
    flipped = dict(facts)
    for path, value in facts.items():
        if path[0] == "line" or path == ("wiring", "drive"):
            flipped[path] = other_axis(value)
    if diodes := facts["wiring", "diodes"]:
        part, toward, *more = diodes
        flipped["wiring", "diodes"] = (part, other_axis(toward), *more)
    return flipped


def renamed(facts: Facts, names: Renames) -> Facts:
    """Return facts with other names, wherever they are mentioned."""
    return {_path(path, names): _value(path, value, names) for path, value in facts.items()}


def _path(path: FactPath, names: Renames) -> FactPath:
    about = ABOUT.get(path[0])
    if about is None:
        return path
    kind, name, *more = path
    if kind in OF_KEYS:
        more = sorted(names.keys.get(key, key) for key in more)
    return (kind, getattr(names, about).get(name, name), *more)


def _value(path: FactPath, value: Any, names: Renames) -> Any:
    keys, lines, layers = names.keys, names.lines, names.layers
    match path:
        case ("plate",):
            return tuple((cluster, _each(line, keys)) for cluster, line in value)
        case ("visits", _):
            return _each(value, keys)
        case ("lines",):
            return _each(value, lines)
        case ("layers",):
            return _each(value, layers)
        case ("boot loader", "hold"):
            return frozenset(_each(value, keys))
        case ("layer", _, "needs"):
            return frozenset(_each(value, layers))
        case ("light", _, "layers"):
            return frozenset(_each(value, layers))
        case ("allowed",):
            places = {**layers, **lines, **keys}
            return frozenset((slug, frozenset(_each(of, places))) for slug, of in value)
        case ("action", _) | ("cell", _, _):
            assert isinstance(value, Behaviour)
            return value.with_layers(layers)
        case ("together", *_):
            action, within_ms = value
            return action.with_layers(layers), within_ms
        case _:
            return value


def _each(old: Any, names: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(names.get(name, name) for name in old)


def renamed_names(names: CellNames, renames: Renames) -> CellNames:
    """Return how cells are written, by the new names of layers and keys; names, by new ones."""

    def cell(layer: str, *keys: str) -> CellPlace:
        new = sorted(renames.keys.get(key, key) for key in keys)
        return (renames.layers.get(layer, layer), *new)

    named = {cell(*at): renames.actions.get(name, name) for at, name in names.of_cells.items()}
    return CellNames(named, {cell(*at): word for at, word in names.written.items()}, names.used)
