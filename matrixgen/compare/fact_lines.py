"""A file as facts, one a line, with the work that changing each would be.

A program that compares texts line by line then compares what two files say, and shows what `diff`
shows: the lines are those facts, each under the work that stands at its field.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Any

from matrixgen.compare.fact_words import NOT_GIVEN, says, what_of
from matrixgen.compare.facts import (
    CUT_OUT,
    OUTLINE,
    PLACED,
    THICKNESS,
    FactPath,
    Facts,
    corners_in,
    facts_of,
    of_kind,
)
from matrixgen.compare.view import DIGITS
from matrixgen.compare.works import work_of_fact
from matrixgen.model import BASE, Cell, Design, Nothing, Press
from matrixgen.model.plate import CUT_OUT_MM, THICKNESS_MM, stem_of
from matrixgen.model.work import Work
from matrixgen.usages import usage_of

FactLine = tuple[Work, str, str]
"""The work that its change asks for, what it is of, and what it says."""


def fact_lines(design: Design) -> list[str]:
    """Return the facts of a file, those of the same thing beside each other."""
    facts = _from_corner(_in_effect(facts_of(design)))
    for cell in design.keyboard.layers[0].cells:
        if _is_own(design, cell):
            del facts["cell", BASE, cell.key.text]  # as the key's name says
    order = [key for _, keys in facts["plate",] for key in keys]
    lines = [line for path, value in _sorted(facts) for line in _lines(path, value, order, facts)]
    return [f"[{work}] {of}: {said}" for work, of, said in lines]


USUAL: Facts = {("on plate", CUT_OUT): CUT_OUT_MM, ("on plate", THICKNESS): THICKNESS_MM}
"""What holds if a file does not say it, and is not said here either."""

HALF = 0.5
"""How far from the plate's corner the middle of a usual key lies."""


def _from_corner(facts: Facts) -> Facts:
    """Return facts with places seen from the first key's corner: all moved alike is not moved."""
    middles = [place for place, *_ in of_kind(facts, "key").values()]
    if not middles:
        return facts
    left, top = (min(each) - HALF for each in zip(*middles, strict=True))

    def seen(place: tuple[float, ...]) -> tuple[float, ...]:
        x, y, *size = place
        return round(x - left, DIGITS) + 0.0, round(y - top, DIGITS) + 0.0, *size

    placed: Facts = {
        path: (seen(value[0]), *value[1:]) for path, value in facts.items() if path[0] == "key"
    }
    for field in PLACED:
        value = facts["on plate", field]
        is_one = isinstance(value, tuple)
        placed["on plate", field] = seen(value) if is_one else value and frozenset(map(seen, value))
    for path, at in facts.items():
        if path[0] == "component place":
            placed[path] = seen(at)
    if corners := corners_in(facts):
        _, radius = facts["on plate", OUTLINE]
        placed["on plate", OUTLINE] = tuple(map(seen, corners)), radius
    return facts | placed


def _is_own(design: Design, cell: Cell) -> bool:
    """Whether a cell does what its key's name says, and says on any computer.

    The name of a knob's step says nothing.
    """
    key = next((key for key in design.keyboard.keys if key.name.text == cell.key.text), None)
    if key is None:
        return cell.action == Nothing()
    letter = stem_of(cell.key.text)
    if design.keyboard.computer is None or len(letter) != 1:
        return not cell.given or cell.action == key.own_action
    return cell.action == Press(usage_of(letter) or 0, 0)


def _in_effect(facts: Facts) -> Facts:
    """Return facts with the settings as an image has them, however they are written."""
    effective = {("keyboard", path[1]): value for path, value in facts.items() if _is_effect(path)}
    vendor, product = effective.pop(("keyboard", "vendor_id")), effective["keyboard", "product_id"]
    effective["keyboard", "product_id"] = f"{vendor:04X}:{product:04X}"
    kept = {path: value for path, value in facts.items() if not _is_effect(path)}
    settle = kept["wiring", "settle_us"]
    kept["wiring", "settle_us"] = settle if settle is None else ceil(settle)
    del kept["keyboard", "vendor_id"]
    no_effect = [path for path in effective if kept[path] and not effective[path]]
    return kept | effective | {("idle", path[1]): kept[path] for path in no_effect}


def _is_effect(path: FactPath) -> bool:
    return path[0] == "effective"


ORDER = (
    *(
        "controllers",
        "keyboard",
        "idle",
        "boot loader",
        "allowed",
        "plate",
        "clusters",
        "key",
        "hand",
    ),
    *("on plate", "without_stabiliser"),
    *("wiring", "without_diode", "reversed", "lines", "line", "pin", "visits", "wire"),
    *("component", "light", "knob", "component pin", "first pin", "component place"),
    *("action", "layers", "layer", "cell", "together"),
)
"""Kinds of facts as they are listed."""

OF_WIRES = ("line", "pin", "visits", "wire")


def _sorted(facts: Facts) -> list[tuple[FactPath, Any]]:
    """Return what is said, by kind and then by name; the layers in their order."""
    layers = facts["layers",]

    def rank(path: FactPath) -> tuple[object, ...]:
        kind, *names = path
        place = ORDER.index("line" if kind in OF_WIRES else kind)
        layer = layers.index(names[0]) if kind in ("layer", "cell", "together") else 0
        return place, layer, *(names[:1] if kind in OF_WIRES else ()), ORDER.index(kind), *names

    return sorted(facts.items(), key=lambda one: rank(one[0]))


def _lines(path: FactPath, value: Any, order: list[str], facts: Facts) -> Iterator[FactLine]:
    work = work_of_fact(path)
    match path:
        case ("plate",):
            yield work, "order of keys", " ".join(order)
            yield "cosmetic", "lines of keys", ", ".join(map(_plate_line, value))
        case ("visits", wire):
            in_order = sorted(value)  # by name: the plate's order may be another one
            yield work, f"wire {wire}", f"keys {' '.join(in_order)}"
            if list(value) != in_order:
                yield "cosmetic", f"wire {wire}", f"visits {' '.join(value)}"
        case ("lines",):
            axes = of_kind(facts, "line")
            for axis in dict.fromkeys(axes.values()):
                yield work, f"order of {axis}s", " ".join(w for w in value if axes[w] == axis)
        case ("on plate", _) if isinstance(value, frozenset):
            yield from ((work, what_of(path), says(path, one)) for one in sorted(value))
        case ("allowed",):
            every = sorted((slug, " ".join(sorted(of))) for slug, of in value)
            yield from ((work, "allowed", " ".join(one).rstrip()) for one in every)
        case _ if value not in NOT_GIVEN and value != USUAL.get(path):
            yield work, what_of(path), says(path, value)


def _plate_line(line: tuple[str | None, tuple[str, ...]]) -> str:
    cluster, keys = line
    return f"{len(keys)}{f' of {cluster}' if cluster else ''}"
