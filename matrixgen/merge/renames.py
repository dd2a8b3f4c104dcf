"""Names that a side gave to things that go on: a renamed key is the same key."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from matrixgen.compare.facts import facts_of
from matrixgen.compare.layer_matching import matched_layers
from matrixgen.merge.rewrite import NewNames
from matrixgen.merge.sides import Version
from matrixgen.merge.three_way import Which, chosen, replaced
from matrixgen.record import Record

KINDS = ("key", "wire", "layer", "action", "cluster", "light", "knob")


def final_names(
    base: Version, ours: Version, theirs: Version, prefer: Which
) -> tuple[NewNames, NewNames, NewNames]:
    """Return the names that base, ours and theirs are to be read with: one for each thing.

    A thing that both renamed, or that one renamed and the other took out, is as the side that is
    preferred has it. A name that a side has given to something else is not used for it.
    """
    sides = (base, ours, theirs)
    wanted: list[_Renaming] = []
    for kind, old, mine, other in _renamings(*sides):
        if (other is None and prefer == "ours") or (mine is None and prefer == "theirs"):
            continue
        spellings = old, mine or old, other or old
        wanted.append(_Renaming(kind, spellings, chosen(*spellings, prefer)))
    while True:
        names = _by_side(wanted)
        free = [one for one in wanted if one.is_free(sides, names)]
        if len(free) == len(wanted):
            return names
        wanted = free


class _Renaming(Record):
    """A thing, its name in base, ours and theirs, and the one that it gets in all of them."""

    kind: str
    spellings: tuple[str, str, str]
    final: str

    def is_free(self, sides: Sequence[Version], names: Sequence[NewNames]) -> bool:
        """Whether nothing else has the new name, and keeps it."""
        return not any(
            word != self.final
            and self.final in _all(side, self.kind)
            and self.final not in found.get(self.kind, {})
            for word, side, found in zip(self.spellings, sides, names, strict=True)
        )


def _by_side(renamings: Iterable[_Renaming]) -> tuple[NewNames, NewNames, NewNames]:
    names: tuple[NewNames, NewNames, NewNames] = ({}, {}, {})
    for one in renamings:
        for found, word in zip(names, one.spellings, strict=True):
            if word != one.final:
                found.setdefault(one.kind, {})[word] = one.final
    return names


def twice_renamed(base: Version, ours: Version, theirs: Version) -> list[str]:
    """Return what both sides renamed in ways that differ: `key K1, which is Fn or Sym`."""
    return [
        f"{kind} {old}, which is {mine or 'gone'} or {other or 'gone'}"
        for kind, old, mine, other in _renamings(base, ours, theirs)
        if old not in (mine, other) and mine != other
    ]


def _renamings(
    base: Version, ours: Version, theirs: Version
) -> Iterator[tuple[str, str, str | None, str | None]]:
    """Yield what was renamed: its kind, its name, and what ours and theirs call it, if at all."""
    by_ours, by_theirs = new_names(base, ours), new_names(base, theirs)
    for kind in KINDS:
        for old in dict.fromkeys((*by_ours[kind], *by_theirs[kind])):
            mine = by_ours[kind].get(old, old if old in _all(ours, kind) else None)
            other = by_theirs[kind].get(old, old if old in _all(theirs, kind) else None)
            yield kind, old, mine, other


def _all(side: Version, kind: str) -> Mapping[str, Any]:
    """Return what a side has of a kind, by name; equal values are likely to be the same thing."""
    keyboard = side.design.keyboard
    if kind == "key":
        return side.order
    if kind == "wire":
        return {line.name.text: line for line in keyboard.wiring.lines}
    if kind == "layer":
        return side.cells
    if kind in ("light", "knob"):
        return _components(side, kind)
    if kind == "action":
        return {one.name.text: one.action for one in keyboard.actions}
    return {one.name.text: (one.x, one.y, one.turned) for one in keyboard.plate.clusters}


def _components(side: Version, kind: str) -> Mapping[str, Any]:
    """Return the pins and the place of each light or knob, by name."""
    keyboard, pins = side.design.keyboard, side.design.component_pins
    places = {one.called: (one.x, one.y) for one in keyboard.plate.components}
    return {
        one.name.text: (
            [[pin.text for pin in of_one] for of_one in pins.get(one.called, ())],
            places.get(one.called),
        )
        for one in keyboard.of_components
        if one.kind == kind
    }


def new_names(base: Version, side: Version) -> NewNames:
    """Return what a side renamed: where a thing went, one came, and they are alike."""
    keys = dict(replaced(list(base.order), list(side.order)))
    found = {"key": keys}
    alike: dict[str, Callable[[Any, Any], bool]] = {
        "wire": partial(_same_wire, base, side, keys),
        "layer": partial(_same_cells, keys),
        "action": lambda one, two: one == two,
        "cluster": lambda one, two: one == two,
        "light": lambda one, two: one == two and any(one),
        "knob": lambda one, two: one == two and any(one),
    }
    for kind, test in alike.items():
        before, after = _all(base, kind), _all(side, kind)
        gone = [name for name in before if name not in after]
        come = [name for name in after if name not in before]
        pairs = [(g, c) for g in gone for c in come if test(before[g], after[c])]
        found[kind] = dict(_one_to_one(pairs))
    found["layer"] |= _exchanged_layers(base, side)
    return found


def _exchanged_layers(base: Version, side: Version) -> dict[str, str]:
    """Return the layers that have exchanged their names, as a comparison of the two sees it."""
    if len(base.cells) <= 2 or base.cells == side.cells:  # the base layer and another
        return {}
    renames = matched_layers(facts_of(base.design), facts_of(side.design)).renames
    return {old: new for old, new in renames.items() if old in side.cells and new in base.cells}


def _one_to_one(pairs: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Yield the pairs that leave no doubt."""
    for old, new in pairs:
        if sum(old == one or new == two for one, two in pairs) == 1:
            yield old, new


def _same_wire(base: Version, side: Version, keys: Mapping[str, str], one: Any, two: Any) -> bool:
    visits = [keys.get(key.text, key.text) for key in one.visits]
    if one.axis != two.axis:
        return False
    if visits and visits == [key.text for key in two.visits]:
        return True
    pins = [
        [pin.text for pin in which.design.pins.get(line.name.text, ())]
        for which, line in ((base, one), (side, two))
    ]
    return bool(pins[0]) and pins[0] == pins[1]


def _same_cells(keys: Mapping[str, str], one: Any, two: Any) -> bool:
    """Whether half of what two layers say is the same."""
    before = {(keys.get(key, key), cell) for key, cell in one.items()}
    after = set(two.items())
    return bool(before & after) and 2 * len(before & after) >= max(len(before), len(after))
