"""Which light and knob of an old file is which of a new one: by name, else by pins and place."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.compare.facts import Facts
from matrixgen.compare.pairs import Match, left
from matrixgen.model.component import ComponentKind
from matrixgen.model.knob import Knob, steps_of

OF_COMPONENT = ("component", "component pin", "component place")


def called_in(facts: Facts) -> dict[str, None]:
    """Return what lights and knobs are called, each once."""
    return dict.fromkeys(path[1] for path in facts if path[0] in OF_COMPONENT)


def pins_of(facts: Facts, called: str) -> dict[str, tuple[str, ...]]:
    """Return a component's pins by controller, that of a knob's contact A first."""
    found = {}
    for path, pins in facts.items():
        if path[:2] == ("component pin", called):
            first = facts.get(("first pin", *path[1:]), pins[0])
            found[path[2]] = (first, *(pin for pin in pins if pin != first))
    return found


def kind_of(called: str) -> ComponentKind:
    """Return whether it is a light or a knob."""
    return "light" if called.startswith("light ") else "knob"


def name_of(called: str) -> str:
    """Return the name of a light or a knob."""
    return called.split(" ", 1)[1]


def matched_components(old: Facts, new: Facts) -> Match:
    """Return which is which, by what they are called."""
    before, after = called_in(old), called_in(new)
    kept = {one: one for one in before if one in after}
    return Match(kept | dict(_renamed(old, new, left(before, after), left(after, before))))


def _renamed(old: Facts, new: Facts, gone: list[str], come: list[str]) -> Iterator[tuple[str, str]]:
    """Yield each that went with the one of its kind that came in its place, on the same pins."""
    for one in gone:
        was = pins_of(old, one), old.get(("component place", one))
        for other in come:
            now = pins_of(new, other), new.get(("component place", other))
            if was == now and kind_of(one) == kind_of(other) and any(was):
                yield one, other
                come.remove(other)
                break


def steps_in(facts: Facts) -> dict[str, str]:
    """Return what the steps of all knobs are called, with what their knobs are called."""
    knobs = [one for one in called_in(facts) if kind_of(one) == Knob.kind]
    return {step: one for one in knobs for step in steps_of(name_of(one))}


def gone_steps(old: Facts, components: Match) -> frozenset[str]:
    """Return the steps of knobs that the new file has no longer."""
    return frozenset(step for step, one in steps_in(old).items() if one not in components.new_of)


def renamed_steps(old: Facts, components: Match) -> dict[str, str]:
    """Return new names of steps by old ones."""
    found: dict[str, str] = {}
    for one, new in components.renames.items():
        if kind_of(one) == Knob.kind:
            before, after = (steps_of(name_of(called)) for called in (one, new))
            found |= dict(zip(before, after, strict=True))
    return found
