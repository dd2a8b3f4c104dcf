"""Where the plate ends: a margin or corners of its own, and by how much it is another plate."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist
from typing import Any

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.fact_words import outline_words
from matrixgen.compare.facts import OUTLINE, Facts, of_kind
from matrixgen.compare.view import DIGITS, STILL, Place, View
from matrixgen.model.plate import MARGIN_MM, RADIUS_MM, SCREWS
from matrixgen.model.switch import UNIT_MM

USUAL_OUTLINE = (MARGIN_MM, RADIUS_MM)

Corners = tuple[tuple[float, float], ...]


def of_outline(view: View) -> Iterator[Change]:
    """Yield the change of where the plate ends: saying the usual outline is none."""
    for edit in view.of("on plate"):
        if edit.path[1] == OUTLINE:
            old, new = edit.old, edit.new
            if view.shift != STILL:
                old, new = _shifted(old, view.shift), _shifted(new, STILL)
            yield from _outline(old, new, view)


def _shifted(outline: Any, shift: Place) -> Any:
    """Return an outline whose corners moved with all else; one with a margin needs not move."""
    if not outline or not isinstance(outline[0], tuple):
        return outline
    corners, radius = outline
    right, down = shift
    return tuple((_rounded(x + right), _rounded(y + down)) for x, y in corners), radius


def _rounded(length: float) -> float:
    return round(length, DIGITS) + 0.0


def _outline(old: Any, new: Any, view: View) -> Iterator[Change]:
    was, now = (one or USUAL_OUTLINE for one in (old, new))
    if was == now:
        if old is None or new is None:
            yield _usual_outline(bool(new))
        return  # its corners moved with all that is on the plate
    does = "goes" if isinstance(now[0], tuple) else "has"
    much = _by_how_much(was[0], now[0], view)
    yield Change(
        kind="solder",
        slug="outline-changed",
        text=f"the plate's outline {does} {outline_words(now)}{much}",
        thing="outline",
        old=outline_words(was),
        new=outline_words(now),
        steps=(BenchStep("plate", f"cut the plate again: outline {outline_words(now)}"),),
    )


def _usual_outline(is_said: bool) -> Change:
    return Change(
        kind="cosmetic",
        slug="outline-said",
        text="the usual outline is " + ("said" if is_said else "no longer said"),
        thing="outline",
    )


def _by_how_much(old: Any, new: Any, view: View) -> str:
    """Return how much wider a plate is, or how far its corners moved; nothing if they stay."""
    if old == new:
        return ""
    if isinstance(old, float) and isinstance(new, float):
        return f": {more(new - old, 'wider', 'narrower')} on each side"
    if isinstance(old, tuple) and isinstance(new, tuple) and len(old) == len(new):
        return f": {_moved(old, new)}"
    words = _sizes(old, new, view)
    if isinstance(old, tuple) and isinstance(new, tuple):
        words = [f"{len(new)} corners instead of {len(old)}", *words]
    return f": {', '.join(words)}" if words else ""


def _moved(old: Corners, new: Corners) -> str:
    """Return how far corners moved, whichever is named first: as little as they may have."""
    turned = (new[first:] + new[:first] for first in range(len(new)))
    ways = [[dist(*pair) for pair in zip(old, one, strict=True)] for one in turned]
    way = min(ways, key=max)
    many = sum(far > 0 for far in way)
    return f"a corner moved by {max(way) * UNIT_MM:.4g} mm{' at most' if many > 1 else ''}"


def _sizes(old: Any, new: Any, view: View) -> list[str]:
    """Return how much wider and higher a plate is; nothing where a cluster is turned."""
    before, after = _size_mm(old, view.first), _size_mm(new, view.new)
    if before is None or after is None:
        return []
    ways = (after[0] - before[0], "wider", "narrower"), (after[1] - before[1], "higher", "lower")
    return [more(*way) for way in ways if round(way[0], DIGITS)]


def _size_mm(ends: Any, facts: Facts) -> tuple[float, float] | None:
    """Return a plate's width and height: of its corners, or of all keys and screws' heads."""
    if isinstance(ends, tuple):
        return _extent([(x, x) for x, _ in ends]), _extent([(y, y) for _, y in ends])
    keys = [key[:3] for key in of_kind(facts, "key").values()]
    if not keys or any(turned % 90 for _, _, turned in keys):
        return None
    sizes = [size[::-1] if turned % 180 else size for _, size, turned in keys]
    boxes = [(*centre, *size) for (centre, _, _), size in zip(keys, sizes, strict=True)]
    heads = {one.nominal: one.head_mm / UNIT_MM for one in SCREWS}
    holes = facts["on plate", "holes"]
    boxes += [(x, y, heads[nominal], heads[nominal]) for x, y, nominal in holes]
    across = _extent([(x - wide / 2, x + wide / 2) for x, _, wide, _ in boxes])
    down = _extent([(y - high / 2, y + high / 2) for _, y, _, high in boxes])
    return across + 2 * ends, down + 2 * ends


def _extent(spans: list[tuple[float, float]]) -> float:
    return (max(end for _, end in spans) - min(start for start, _ in spans)) * UNIT_MM


def more(by: float, larger: str, smaller: str) -> str:
    """Return a difference in millimetres."""
    return f"{round(abs(by), DIGITS):g} mm {larger if by > 0 else smaller}"
