"""Lights and knobs: added, removed, renamed, moved, on other pins, and what is said of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.changes.renamed import renamed
from matrixgen.compare.component_matching import called_in, kind_of, name_of, pins_of
from matrixgen.compare.fact_words import place_words, says, what_of
from matrixgen.compare.facts import FactPath, Facts
from matrixgen.compare.pairs import Match
from matrixgen.compare.view import STILL, View
from matrixgen.compare.works import work_of_fact
from matrixgen.model import Component, Knob, Light
from matrixgen.model.component import ComponentKind

KINDS_OF: Mapping[ComponentKind, type[Component]] = {one.kind: one for one in (Light, Knob)}


def of_components(view: View) -> Iterator[Change]:
    """Yield what changed in the lights and the knobs."""
    matches = view.matches.components
    kept = matches.new_of
    for kind in KINDS_OF:
        names = {name_of(a): name_of(b) for a, b in matches.renames.items() if kind_of(a) == kind}
        yield from renamed(kind, Match(names))
    yield from (_removed(view.old, one) for one in called_in(view.old) if one not in kept)
    yield from (_added(view.new, one) for one in matches.come(called_in(view.new)))
    for old, new in kept.items():
        yield from _moved(view, old, new)
        yield from _on_otherpins_of(view, old, new)
        yield from _said_anew(view, old, new)


def _shown(called: str) -> str:
    return f"{kind_of(called)} `{name_of(called)}`"


def _removed(facts: Facts, called: str) -> Change:
    return Change(
        kind="solder",
        slug=f"{kind_of(called)}-removed",
        text=f"{_shown(called)} is removed",
        thing=f"{kind_of(called)} removed",
        old=called,
        steps=(BenchStep("take off", f"take off the {_shown(called)} with its wires"),),
        reflashes=("component", called) in facts,
    )


def _added(facts: Facts, called: str) -> Change:
    place = facts.get(("component place", called))
    steps = [_cut(called, place)] if place else []
    steps += _to_pins(called, pins_of(facts, called))
    return Change(
        kind="solder",
        slug=f"{kind_of(called)}-added",
        text=f"{_shown(called)} is added",
        thing=f"{kind_of(called)} added",
        new=called,
        steps=tuple(steps),
        reflashes=("component", called) in facts,
    )


def _cut(called: str, place: tuple[float, float]) -> BenchStep:
    at = place_words(place)
    return BenchStep("plate", f"drill the hole of the {_shown(called)} {at} (in key units)")


def _to_pins(called: str, pins: Mapping[str, tuple[str, ...]]) -> list[BenchStep]:
    """Return how a component is put on the pins of each controller."""
    return [
        BenchStep("pin", f"put the {_shown(called)} on {' and '.join(on)} of {controller}")
        for controller, on in pins.items()
    ]


def _moved(view: View, old: str, new: str) -> Iterator[Change]:
    was, now = view.old.get(("component place", old)), view.new.get(("component place", new))
    if was == now or view.shift != STILL:
        return
    kind = kind_of(new)
    if was and now:
        text = f"the {_shown(new)}, {place_words(was)} before, is now {place_words(now)}"
    elif now:
        text = f"the place of the {_shown(new)} is given: {place_words(now)}"
    else:
        text = f"the place of the {_shown(new)} is no longer given"
    yield Change(
        kind="solder" if was and now else "cosmetic",  # where it lies may only now be written down
        slug=f"{kind}-moved",
        text=text,
        thing=f"place of a {kind}",
        old=place_words(was) if was else None,
        new=place_words(now) if now else None,
        steps=(_cut(new, now),) if was and now else (),
    )


def _on_otherpins_of(view: View, old: str, new: str) -> Iterator[Change]:
    before, after = pins_of(view.old, old), pins_of(view.new, new)
    for controller in (one for one in after if one in before):
        was, now = before[controller], after[controller]
        if was != now and set(was) == set(now):
            yield _turned_round(new, was, now, controller)
        elif was != now:
            on = {controller: now}
            yield Change(
                kind="solder",
                slug=f"{kind_of(new)}-on-other-pin",
                text=f"the {_shown(new)} moved from {' '.join(was)} to {' '.join(now)} "
                f"of {controller}",
                thing=f"{kind_of(new)} on another pin",
                old=" ".join(was),
                new=" ".join(now),
                steps=tuple(_to_pins(new, on)),
                reflashes=True,
            )
    both = _controllers(view)
    for controller in after:
        if controller not in before and controller in both:
            yield Change(
                kind="solder",
                slug=f"{kind_of(new)}-wired",
                text=f"the {_shown(new)} is now on {' '.join(after[controller])} of {controller}",
                thing=f"{kind_of(new)} wired",
                new=" ".join(after[controller]),
                steps=tuple(_to_pins(new, {controller: after[controller]})),
                reflashes=True,
            )


def _turned_round(
    called: str, was: tuple[str, ...], now: tuple[str, ...], controller: str
) -> Change:
    """Return that a knob's pins changed places in the file: it is its wires that are right."""
    return Change(
        kind="reflash",
        slug="knob-turned-round",
        text=f"the {_shown(called)} turns the other way on {controller}: A is now on {now[0]}",
        thing="way that a knob turns",
        old=" ".join(was),
        new=" ".join(now),
    )


def _controllers(view: View) -> set[str]:
    """Return the controllers that both files name, and the pins of files that name none."""
    old, new = set(view.old["controllers",]), set(view.new["controllers",])
    return (old & new) or ({"#0"} if not old and not new else set())


def _said_anew(view: View, old: str, new: str) -> Iterator[Change]:
    """Yield a change for each field of a component that says something else."""
    before, after = _fields(view.old, old), _fields(view.new, new)
    for field in dict.fromkeys((*before, *after)):
        was, now = before.get(field), after.get(field)
        if was != now:
            yield _field_change(new, field, was, now)


def _fields(facts: Facts, called: str) -> dict[str, Any]:
    of = kind_of(called), name_of(called)
    return {path[2]: value for path, value in facts.items() if path[:2] == of}


def _field_change(called: str, field: str, was: Any, now: Any) -> Change:
    kind = kind_of(called)
    path: FactPath = (kind, name_of(called), field)
    work = work_of_fact(path)
    old, new = ("nothing" if value is None else says(path, value) for value in (was, now))
    subject = what_of(path).split(", ", 1)[1]
    steps = [BenchStep("wire", f"change the {_shown(called)}: {subject} {new}")]
    return Change(
        kind=work,
        slug=f"{kind}-{field.replace('_', '-')}-changed",
        text=f"the {subject} of the {_shown(called)} changed from {old} to {new}",
        thing=f"{kind} changed",
        old=old,
        new=new,
        steps=tuple(steps) if work == "solder" else (),
        reflashes=field in KINDS_OF[kind].in_image,
    )
