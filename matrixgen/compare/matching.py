"""Which key, wire, layer and action of an old file is which of a new one.

Not by name alone: a key is the switch at its place, between its two wires. Two keys that exchange
their names keep their places, and nothing is to be soldered.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from matrixgen.compare.component_matching import matched_components
from matrixgen.compare.facts import Facts, of_kind, wires_of_keys
from matrixgen.compare.layer_matching import cells_by_layer, matched_layers
from matrixgen.compare.pairs import Match, greedy_matching, joined, left
from matrixgen.record import Record

SURE = 4.0
"""What a key's place is worth, and so its two wires; its name and its cells are worth half."""

FEW = 0.25
"""Share of the keys below which two files are taken to be two keyboards."""


class Matches(Record, kw_only=True):
    """What is what. `shared` and `most` count key names: in both files, and in the larger one."""

    keys: Match
    lines: Match
    layers: Match
    actions: Match
    components: Match
    shared: int
    most: int

    @property
    def are_strangers(self) -> bool:
        """Whether the files are of two keyboards, as far as one can tell."""
        return len(self.keys.new_of) < FEW * self.most


def matched(old: Facts, new: Facts) -> Matches:
    """Return which is which."""
    lines = _lines(old, new)
    layers = matched_layers(old, new)
    keys = _keys(old, new, lines, layers)
    names = [set(of_kind(facts, "key")) for facts in (old, new)]
    return Matches(
        keys=keys,
        lines=lines,
        layers=layers,
        actions=_actions(old, new, layers),
        components=matched_components(old, new),
        shared=len(names[0] & names[1]),
        most=max(map(len, names)),
    )


def are_transposed(old: Facts, new: Facts) -> bool:
    """Whether most wires, which share more than half of their keys, are of the other axis."""
    axes = of_kind(old, "line"), of_kind(new, "line")
    visits = of_kind(old, "visits"), of_kind(new, "visits")

    def is_same(a: str, b: str) -> bool:
        one, other = set(visits[0][a]), set(visits[1][b])
        return 2 * len(one & other) > max(len(one), len(other))

    pairs = [(a, b) for a in axes[0] for b in axes[1] if is_same(a, b)]
    flipped = [(a, b) for a, b in pairs if axes[0][a] != axes[1][b]]
    return 2 * len(flipped) > len(pairs)


def _lines(old: Facts, new: Facts) -> Match:
    """Match wires by the keys that they share, their names and their pins."""
    axes = of_kind(old, "line"), of_kind(new, "line")
    visits = of_kind(old, "visits"), of_kind(new, "visits")
    pins = _pins(old), _pins(new)

    def shared(a: str, b: str) -> float:
        one, other = set(visits[0][a]), set(visits[1][b])
        return len(one & other) / max(len(one), len(other), 1)

    def score(a: str, b: str) -> float:
        if axes[0][a] != axes[1][b]:
            return 0.0
        same_pin = bool(pins[0].get(a, set()) & pins[1].get(b, set()))
        return 2 * (a == b) + 3 * shared(a, b) + 1.5 * same_pin

    sure = {a: a for a in axes[0] if axes[1].get(a) == axes[0][a] and shared(a, a) > 0.5}
    rest = greedy_matching(left(axes[0], sure), left(axes[1], sure.values()), score, least=1.5)
    return joined(sure, rest)


def _pins(facts: Facts) -> dict[str, set[tuple[str, str]]]:
    found: dict[str, set[tuple[str, str]]] = {}
    for path, pin in facts.items():
        if path[0] == "pin":
            found.setdefault(path[1], set()).add((path[2], pin))
    return found


def _actions(old: Facts, new: Facts, layers: Match) -> Match:
    """Match actions by name, and others by what they do."""
    does = of_kind(old, "action"), of_kind(new, "action")
    sure = {name: name for name in does[0] if name in does[1]}

    def score(a: str, b: str) -> float:
        return float(does[0][a].with_layers(layers.renames) == does[1][b])

    rest = greedy_matching(left(does[0], sure), left(does[1], sure), score, least=1.0)
    return joined(sure, rest)


def _keys(old: Facts, new: Facts, lines: Match, layers: Match) -> Match:
    """Match keys: at once those that kept name and place or wires, then by all that is known."""
    places = of_kind(old, "key"), of_kind(new, "key")
    wires = _crossings(old, lines.new_of), _crossings(new, {})
    cells = _by_key(old, layers.new_of), _by_key(new, {})

    def is_same(name: str) -> bool:
        return name in places[1] and (
            places[0][name][0] == places[1][name][0]
            or (wires[0].get(name) == wires[1].get(name) != None)  # noqa: E711
        )

    def score(a: str, b: str) -> float:
        place = SURE * bool(places[0][a][0] == places[1][b][0])
        wired = SURE * (wires[0].get(a, 0) == wires[1].get(b, 1))
        name = 2.0 * (a == b)
        if not place + wired + name:
            return 0.0
        one, other = cells[0].get(a, set()), cells[1].get(b, set())
        return place + wired + name + 2 * len(one & other) / max(len(one), len(other), 1)

    sure = {name: name for name in places[0] if is_same(name)}
    rest = greedy_matching(left(places[0], sure), left(places[1], sure), score, least=2.0)
    found = joined(sure, rest)
    strong = [a for a, b in found.new_of.items() if a == b or score(a, b) >= 2 * SURE]
    if len(strong) < FEW * max(map(len, places)):
        return Match({name: name for name in places[0] if name in places[1]})
    return found


def _crossings(facts: Facts, lines: Mapping[str, str]) -> dict[str, frozenset[str]]:
    """Return the wires of each key, by their new names; a wire that is gone counts for nothing."""

    def name(line: str) -> str:
        return lines.get(line, f"gone {line}" if lines else line)

    wires = wires_of_keys(facts).items()
    return {key: frozenset(map(name, of_key.values())) for key, of_key in wires}


def _by_key(facts: Facts, layers: Mapping[str, str]) -> dict[str, set[tuple[str, Any]]]:
    """Return what each key does on each layer, by the layers' new names."""
    found: dict[str, set[tuple[str, Any]]] = {}
    for layer, cells in cells_by_layer(facts).items():
        for key, action in cells.items():
            found.setdefault(key, set()).add((layers.get(layer, layer), action))
    return found
