"""Screw holes, areas to keep clear of wires, the controller: added, removed, moved, resized.

Holes and areas have no names: of one that went and one that came, the nearest are the same, moved.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from math import dist

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.fact_words import area_words, controller_words, hole_words
from matrixgen.compare.facts import CONTROLLER
from matrixgen.compare.view import STILL, Place, View

NEAR = 1.0
"""Key units between the middles of two places that may be the same one, moved."""


def of_places(view: View) -> Iterator[Change]:
    """Yield what changed in the holes and the areas of the plate."""
    for edit in view.of("on plate"):
        if edit.path[1] == CONTROLLER and view.shift == STILL:
            yield _controller(edit.old, edit.new)
        change_of = CHANGES.get(edit.path[1])
        if change_of is None or view.shift != STILL:
            continue
        for old, new in _paired(edit.old - edit.new, edit.new - edit.old):
            yield change_of(old, new)


def _paired(
    gone: Collection[Place], come: Collection[Place]
) -> Iterator[tuple[Place | None, Place | None]]:
    """Yield each place that moved with its new one, then those that went, then those that came."""
    away = sorted((dist(_middle(old), _middle(new)), old, new) for old in gone for new in come)
    moved: dict[Place, Place] = {}
    for distance, old, new in away:
        if distance <= NEAR and old not in moved and new not in moved.values():
            moved[old] = new
    yield from sorted(moved.items())
    yield from ((old, None) for old in sorted(gone) if old not in moved)
    yield from ((None, new) for new in sorted(come) if new not in moved.values())


def _middle(place: Place) -> tuple[float, float]:
    x, y, width, height = place if len(place) == 4 else (*place[:2], 0.0, 0.0)
    return x + width / 2, y + height / 2


def _hole(old: Place | None, new: Place | None) -> Change:
    was, now = (hole_words(place) if place else None for place in (old, new))
    what, text = _told("screw hole", was, now)
    if new is None:
        step = BenchStep("take off", f"remove the screw {was}")
    elif old is None:
        step = BenchStep("plate", f"drill a screw hole {now} (its middle, in key units)")
    else:
        what = "moved" if old[:2] != new[:2] else "changed"
        again = f"drill the screw hole {was} again, {now} (its middle, in key units)"
        step = BenchStep("plate", again)
    return Change(
        kind="solder",
        slug=f"hole-{what}",
        text=text,
        thing=f"hole {what}",
        old=was,
        new=now,
        steps=(step,),
    )


def _area(old: Place | None, new: Place | None) -> Change:
    was, now = (f"of {area_words(place)}" if place else None for place in (old, new))
    what, text = _told("keep-clear area", was, now)
    step = BenchStep("wire", f"run the wires round the area {now} (its upper left corner)")
    return Change(
        kind="solder" if new else "cosmetic",  # wires that ran round it may stay
        slug=f"area-{what}",
        text=text,
        thing="keep-clear area",
        old=was,
        new=now,
        steps=(step,) if new else (),
    )


def _told(thing: str, was: str | None, now: str | None) -> tuple[str, str]:
    """Return what happened to a thing, in a word and in a text."""
    if was is None:
        return "added", f"the {thing} {now} is added"
    if now is None:
        return "removed", f"the {thing} {was} is removed"
    return "changed", f"the {thing} {was} is now {now}"


def _controller(old: Place | None, new: Place | None) -> Change:
    was, now = (controller_words(place) if place else None for place in (old, new))
    if old is None:
        what, text = "given", f"the controller's place is given: {now}"
    elif new is None:
        what, text = "not-given", "the controller's place is no longer given"
    else:
        what, text = "moved", f"the controller, {was} before, is now {now}"
    step = BenchStep("pin", f"move the controller: the middle of its USB edge {now}")
    return Change(
        kind="solder" if old and new else "cosmetic",  # where it lies may only now be written down
        slug=f"controller-place-{what}",
        text=text,
        thing="controller's place",
        old=was,
        new=now,
        steps=(step,) if old and new else (),
    )


CHANGES = {"holes": _hole, "keep_clear": _area}
"""What makes the change of a place, by the plate's field that has it."""
