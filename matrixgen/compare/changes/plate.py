"""Keys: added, removed, renamed, moved, resized, turned; and how the plate is divided."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.changes.renamed import renamed
from matrixgen.compare.facts import of_kind
from matrixgen.compare.view import DIGITS, MOST_NAMED, STILL, View, diode_of
from matrixgen.model.prose import listed, named, quoted


def of_plate(view: View) -> Iterator[Change]:
    """Yield what changed in which keys there are, what they are called and where they lie."""
    yield from _removed(view)
    yield from _added(view)
    yield from renamed("key", view.matches.keys)
    yield from _shifted(view)
    yield from _moved(view)
    yield from _resized(view)
    yield from _divided(view)


def _removed(view: View) -> Iterator[Change]:
    before = view.first_lines
    for key in view.removed_keys:
        wires = quoted(before[key].values()) if before.get(key) else ""
        off = f", off {wires}" if wires else ""
        yield Change(
            kind="solder",
            slug="key-removed",
            text=f"key `{key}` is removed",
            thing="key removed",
            keys=(key,),
            old=key,
            steps=(BenchStep("take off", f"remove the switch `{key}` with its diode{off}"),),
            reflashes=True,
        )


def _added(view: View) -> Iterator[Change]:
    for key in view.added_keys:
        wires = [f"`{line}`" for line in view.new_lines.get(key, {}).values()]
        steps = [
            BenchStep("plate", f"cut an opening for `{key}` at {_place(view.new['key', key][0])}")
        ]
        steps.append(BenchStep("switch", f"fit the switch `{key}`"))
        toward = diode_of(view.new, key)
        if toward in ("row", "column"):
            steps.append(
                BenchStep("diode", f"fit a diode at `{key}`, its band toward the {toward}")
            )
        if wires:
            steps.append(BenchStep("wire", f"solder `{key}` to {listed(wires)}"))
        yield Change(
            kind="solder",
            slug="key-added",
            text=f"key `{key}` is added",
            thing="key added",
            keys=(key,),
            new=key,
            steps=tuple(steps),
            reflashes=True,
        )


def _shifted(view: View) -> Iterator[Change]:
    if view.shift != STILL:
        right, down = view.shift
        words = [w for w in (_along(right, "right", "left"), _along(down, "down", "up")) if w]
        yield Change(
            kind="cosmetic",
            slug="plate-shifted",
            text=f"all that is on the plate is given {listed(words)}: the same plate",
            thing="corner of the plate",
        )


def _moved(view: View) -> Iterator[Change]:
    """Yield one change for all keys that move alike, and one for those that are turned alike."""
    ways: dict[tuple[Any, ...], list[str]] = {}
    for key in _changed_keys(view):
        (old_x, old_y), _, old_turn = view.old["key", key]
        (new_x, new_y), _, new_turn = view.new["key", key]
        right, down = new_x - old_x - view.shift[0], new_y - old_y - view.shift[1]
        way = (round(right, DIGITS), round(down, DIGITS), round(new_turn - old_turn, DIGITS))
        if any(way):
            ways.setdefault(way, []).append(key)
    for (right, down, turn), keys in ways.items():
        words = [w for w in (_along(right, "right", "left"), _along(down, "down", "up")) if w]
        words += [_turned(turn)] * bool(turn)
        are = "is" if len(keys) == 1 else "are"
        yield Change(
            kind="solder",
            slug="keys-moved",
            text=f"{_named(keys)} {are} moved {listed(words)}",
            thing="key moved",
            keys=tuple(keys),
            steps=(BenchStep("plate", f"cut the plate again: {_named(keys)} {listed(words)}"),),
        )


def _turned(degrees: float) -> str:
    """Return a rotation by the short way round; clockwise is positive."""
    short = round((degrees + 180) % 360 - 180, 4)
    return f"{abs(short):g} degrees {'clockwise' if short > 0 else 'anticlockwise'}"


def _resized(view: View) -> Iterator[Change]:
    for key in _changed_keys(view):
        old, new = view.old["key", key][1], view.new["key", key][1]
        if old != new:
            yield Change(
                kind="solder",
                slug="key-resized",
                text=f"key `{key}` is now {_size(new)} instead of {_size(old)}",
                thing="key resized",
                keys=(key,),
                old=_size(old),
                new=_size(new),
                steps=(BenchStep("plate", f"use a keycap {_size(new)} for `{key}`"),),
            )


def _divided(view: View) -> Iterator[Change]:
    """Yield a change where the plate's lines or clusters hold the same keys in another order.

    The firmware numbers keys in the plate's order, so that another order is another image.
    """
    added = set(view.added_keys)
    new = [(cluster, [k for k in keys if k not in added]) for cluster, keys in view.new["plate",]]
    old = [(cluster, list(keys)) for cluster, keys in view.old["plate",]]
    if _keys(old) != _keys(new):
        yield Change(
            kind="reflash",
            slug="keys-ordered",
            text="the plate names its keys in another order: the same keyboard, other numbers",
            thing="order of keys",
        )
    elif _parts(old) != _parts(new) or _clusters(old) != _clusters(new):
        yield Change(
            kind="cosmetic",
            slug="plate-lines",
            text="the plate's lines are divided differently",
            thing="plate line",
        )


def _keys(lines: Sequence[tuple[str | None, Sequence[str]]]) -> list[str]:
    return [key for _, keys in lines for key in keys]


def _parts(lines: Sequence[tuple[str | None, list[str]]]) -> list[tuple[str | None, list[str]]]:
    return [line for line in lines if line[1]]


def _clusters(lines: Sequence[tuple[str | None, Sequence[str]]]) -> list[str | None]:
    """Return the clusters that hold one of the lines' keys, in their order."""
    return list(dict.fromkeys(cluster for cluster, keys in lines if keys and cluster))


def _changed_keys(view: View) -> list[str]:
    """Return the keys of both files whose place, size or turn differ."""
    kept = of_kind(view.old, "key")
    return [edit.path[1] for edit in view.of("key") if edit.path[1] in kept and edit.new]


def _named(keys: list[str]) -> str:
    """Return keys by their names, or how many they are."""
    kind = "key " if len(keys) == 1 else "keys "
    return f"{kind if len(keys) <= MOST_NAMED else ''}{named(keys, 'key', MOST_NAMED)}"


def _along(way: float, forth: str, back: str) -> str:
    return f"{abs(way):g} {forth if way > 0 else back}" if way else ""


def _place(centre: tuple[float, float]) -> str:
    return f"{centre[0]:g}, {centre[1]:g} (its middle, in key units)"


def _size(size: tuple[float, float]) -> str:
    width, height = size
    return f"{width:g} wide" if height == 1 else f"{width:g} wide and {height:g} high"
