"""Diodes, as a hand feels them: which part, where the band points, at which keys."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.view import MOST_NAMED, Physical, View, diode_of
from matrixgen.model.prose import named


def of_diodes(view: View) -> Iterator[Change]:
    """Yield what changed in the diodes of the keys that both files have, and in what is driven."""
    yield from _part(view)
    turned: dict[tuple[Physical, Physical], list[str]] = {}
    for key in view.kept_keys:
        old, new = diode_of(view.old, key), diode_of(view.new, key)
        if old != new:
            turned.setdefault((old, new), []).append(key)
    for (old, new), keys in turned.items():
        yield _turned(view, old, new, keys)
    if not turned and any(_said_otherwise(view)):
        yield Change(
            kind="cosmetic",
            slug="diodes-said",
            text="the same diodes, written differently",
            thing="way to say the diodes",
        )
    yield from _driven(view)


def _part(view: View) -> Iterator[Change]:
    old, new = view.old["wiring", "diodes"], view.new["wiring", "diodes"]
    if old and new and old[0] != new[0]:
        yield Change(
            kind="solder",
            slug="diode-part",
            text=f"the diodes changed from {old[0]} to {new[0]}",
            thing="kind of diode",
            old=old[0],
            new=new[0],
            steps=(BenchStep("diode", f"replace each {old[0]} by a {new[0]}"),),
        )


def _said_otherwise(view: View) -> Iterator[bool]:
    kept = set(view.kept_keys)
    for edit in view.of("without_diode", "reversed"):
        yield edit.path[1] in kept
    old, new = view.old["wiring", "diodes"], view.new["wiring", "diodes"]
    yield (old and old[1]) != (new and new[1])


def _turned(view: View, old: Physical, new: Physical, keys: list[str]) -> Change:
    everywhere = len(keys) == len(view.kept_keys) and len(keys) > MOST_NAMED
    at = "all keys" if everywhere else named(keys, "key", MOST_NAMED)
    text, step = _words(old, new, at)
    return Change(
        kind="solder",
        slug="diodes-changed",
        text=text,
        thing="diode",
        keys=tuple(keys),
        old=old,
        new=new,
        steps=(BenchStep("diode", step),),
        reflashes="none" not in (old, new),
    )


def _words(old: Physical, new: Physical, at: str) -> tuple[str, str]:
    if new == "none":
        return f"the diode at {at} is removed", f"take out the diode at {at}, and bridge it"
    if new == "unknown":
        return f"the file no longer says which diode is at {at}", f"check which diode is at {at}"
    if old == "none":
        text = f"a diode is added at {at}, its band toward the {new}"
        return text, f"fit a diode at {at}, its band toward the {new}"
    if old == "unknown":
        text = f"at {at} the file now says that the bands point toward the {new}"
        return text, f"check that the band points toward the {new} at {at}"
    return (
        f"at {at} the band now points toward the {new} instead of the {old}",
        f"reverse the diode at {at}",
    )


def _driven(view: View) -> Iterator[Change]:
    old, new = view.old["wiring", "drive"], view.new["wiring", "drive"]
    if old != new:
        yield Change(
            kind="reflash",
            slug="drive-turned",
            text=f"{new}s are now driven instead of {old}s",
            thing="scan",
            old=old,
            new=new,
        )
