"""A file as facts: one value for each thing that it says, by the names that it is said of.

The facts of two files are equal exactly where the files mean the same (`model/meaning.py`), since
whatever is not taken apart here is a fact under its field's name. Because each stands alone, two
files differ by a list of them, and that list can be applied. Two kinds say nothing that the others
do not, but what an image makes of it: `effective`, settings as it has them, and `hand`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from matrixgen.model import Design, Keyboard
from matrixgen.model.hands import hands_of
from matrixgen.model.meaning import Meaning, said_by
from matrixgen.model.used_actions import used_actions
from matrixgen.of_same import OfSame
from matrixgen.record import Record

FactPath = tuple[str, ...]
Facts = dict[FactPath, Any]
"""Values by their paths; the first word says what kind of fact it is."""

FoundFacts = Iterator[tuple[FactPath, Any]]


CellPlace = tuple[str, ...]
"""A layer, and the key of a cell or the keys of a set."""


class CellNames(Record):
    """How cells are written, by layer and keys; and which are a name of the block `actions`.

    `used` are all names that a cell has, or an action: as they are in that file.

    A set of keys that is one action has its keys in the order of their names.
    """

    of_cells: Mapping[CellPlace, str]
    written: Mapping[CellPlace, str]
    used: frozenset[str]


_found = OfSame[tuple[tuple[FactPath, Any], ...]]()
"""The facts of plates and wirings that several files share."""


def facts_of(design: Design) -> Facts:
    """Return what a file says."""
    meaning = said_by(design, but=("keyboard",))
    keyboard = said_by(design.keyboard, but=("plate", "wiring"))
    plate, wiring = design.keyboard.plate, design.keyboard.wiring
    return dict(
        [
            (("controllers",), meaning["controllers"]),
            (("allowed",), meaning["allowances"]),
            *_pins(meaning),
            *_found.made(lambda: tuple(_plate(said_by(plate))), plate),
            *_hands(design.keyboard),
            *_found.made(lambda: tuple(_wiring(said_by(wiring))), wiring),
            *_components(design, meaning),
            *_layers(keyboard),
            *_each("boot loader", keyboard.pop("boot_loader")),
            *_each("keyboard", keyboard.pop("identity") | keyboard),
            *_each("effective", said_by(design.keyboard.effective)),
        ]
    )


def names_in_cells(keyboard: Keyboard) -> CellNames:
    """Return how the cells of all layers are written."""
    known = {named.name.text for named in keyboard.actions}
    cells = [
        ((layer.name.text, *sorted(cell.key_names)), cell)
        for layer in keyboard.layers
        for cell in layer.every_cell
    ]
    written = {place: cell.written.text for place, cell in cells}
    given = {place for place, cell in cells if cell.given}
    named = {cell: word for cell, word in written.items() if cell in given and word in known}
    return CellNames(named, written, used_actions(keyboard))


def _each(kind: str, meaning: Meaning, *of: str) -> FoundFacts:
    """Yield each of the values that are left, under its name."""
    yield from (((kind, *of, name), value) for name, value in meaning.items())


def _pins(meaning: Meaning) -> FoundFacts:
    for line, pins in meaning["pins"].items():
        for place, pin in enumerate(pins):
            yield ("pin", line, _controller_of(meaning, place)), pin


def _controller_of(meaning: Meaning, place: int) -> str:
    """Return the controller of a pin by its place among those of one wire."""
    named = place < len(meaning["controllers"])
    return str(meaning["controllers"][place]) if named else f"#{place}"


CONTROLLER, OUTLINE, CUT_OUT, THICKNESS = "controller", "outline", "cut_out", "thickness"
"""The plate's fields for what there is one of at most."""

PLACED = ("holes", "keep_clear", CONTROLLER)
"""The plate's fields for what has a place."""


def _plate(plate: Meaning) -> FoundFacts:
    lines = plate.pop("lines")
    yield (
        ("plate",),
        tuple((one["cluster"], tuple(k["name"] for k in one["keys"])) for one in lines),
    )
    yield ("clusters",), tuple(cluster["name"] for cluster in plate.pop("clusters"))
    said = plate.pop(CONTROLLER)
    yield ("on plate", CONTROLLER), tuple(said.values()) if said else None
    yield ("on plate", OUTLINE), _outline(plate.pop(OUTLINE))
    yield from ((("without_stabiliser", key), True) for key in plate.pop("without_stabiliser"))
    del plate["components"]  # each has facts of its own
    yield from _each("on plate", plate)
    for line in lines:
        for key in line["keys"]:
            size = key.pop("width"), key.pop("height")
            name, centre, turned = key.pop("name"), key.pop("centre"), key.pop("turned")
            yield ("key", name), (centre, size, turned, *key.values())


def _outline(said: Meaning | None) -> tuple[Any, float] | None:
    """Return the plate's margin, or its corners, and how round they are."""
    if said is None:
        return None
    return said["corners"] if "corners" in said else said["margin"], said["radius"]


def _hands(keyboard: Keyboard) -> FoundFacts:
    """Yield the hand of each key where an action heeds it: the image has it then."""
    if any(action.heeds_hands for action in keyboard.every_action):
        for key, hand in hands_of(keyboard.plate).items():
            yield ("hand", key), hand or "neither"


def _wiring(wiring: Meaning) -> FoundFacts:
    lines, diodes = wiring.pop("lines"), wiring.pop("diodes")
    del wiring["lights"], wiring["knobs"]
    yield ("wiring", "diodes"), tuple(diodes.values()) if diodes else None
    for kind in ("without_diode", "reversed"):
        yield from (((kind, key), True) for key in wiring.pop(kind))
    yield from _each("wiring", wiring)
    yield ("lines",), tuple(line["name"] for line in lines)
    for line in lines:
        name = line.pop("name")
        yield ("line", name), line.pop("axis")
        yield ("visits", name), line.pop("visits")
        yield from _given("wire", line, name)


def _components(design: Design, meaning: Meaning) -> FoundFacts:
    """Yield each light and knob, what is said of it, its pins on each controller and its place."""
    for one in design.keyboard.wiring.components:
        yield ("component", one.called), True
        said = said_by(one)
        yield from _given(one.kind, said, said.pop("name"))
    for called, pins in meaning["component_pins"].items():
        for place, of_one in enumerate(pins):
            controller = _controller_of(meaning, place)
            yield ("component pin", called, controller), tuple(sorted(of_one))
            if len(of_one) > 1:  # which of a knob's comes first only says which way it turns
                yield ("first pin", called, controller), of_one[0]
    for placed in design.keyboard.plate.components:
        said = said_by(placed)
        yield ("component place", placed.called), (said["x"], said["y"])


def _layers(keyboard: Meaning) -> FoundFacts:
    for named in keyboard.pop("actions"):
        yield ("action", named["name"]), named["action"]
    layers = keyboard.pop("layers")
    yield ("layers",), tuple(layer["name"] for layer in layers)
    for layer in layers:
        name, cells, sets = (layer.pop(field) for field in ("name", "cells", "together"))
        yield from _given("layer", layer, name)
        for key, action in cells.items():
            yield ("cell", name, key), action
        for keys, said in sets.items():
            yield ("together", name, *keys), said


def _given(kind: str, meaning: Meaning, name: str) -> FoundFacts:
    """Yield what is said of one name, but for what is left out."""
    yield from (one for one in _each(kind, meaning, name) if one[1] not in (None, frozenset()))


def of_kind(facts: Facts, kind: str) -> dict[str, Any]:
    """Return the facts of a kind that are said of one name each, by that name."""
    return dict(_KINDS.made(lambda: _by_kind(facts), facts).get(kind, {}))


_KINDS: OfSame[dict[str, dict[str, Any]]] = OfSame()
"""A comparison asks for some twenty kinds of both files' facts, and changes none."""


def _by_kind(facts: Facts) -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for path, value in facts.items():
        if len(path) > 1:
            found.setdefault(path[0], {})[path[1]] = value
    return found


def places_of(facts: Facts) -> dict[str, frozenset[tuple[float, ...]]]:
    """Return what has a place on the plate but keys: by its field, many, one or none.

    An outline with a margin has none of its own: it goes with all else. A corner of another one is
    a place with its number. Lights and knobs are there by what they are called.
    """
    corners = frozenset((*at, number) for number, at in enumerate(corners_in(facts)))
    return {
        field: value if isinstance(value, frozenset) else frozenset([value] if value else [])
        for field, value in of_kind(facts, "on plate").items()
        if field in PLACED
    } | {
        OUTLINE: corners,
        **{path: frozenset([at]) for path, at in of_kind(facts, "component place").items()},
    }


def corners_in(facts: Facts) -> tuple[tuple[float, float], ...]:
    """Return the corners of the plate's outline; none where it has a margin, or is not said."""
    ends, *_ = facts["on plate", OUTLINE] or [()]
    return ends if isinstance(ends, tuple) else ()


def wires_of_keys(facts: Facts) -> dict[str, dict[str, str]]:
    """Return the wires of each key that is on one, by axis."""
    axes = of_kind(facts, "line")
    found: dict[str, dict[str, str]] = {}
    for line, keys in of_kind(facts, "visits").items():
        for key in keys:
            found.setdefault(key, {})[axes[line]] = line
    return found
