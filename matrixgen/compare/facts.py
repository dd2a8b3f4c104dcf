"""A file as facts: one value for each thing that it says, by the names that it is said of.

The facts of two files are equal exactly where the files mean the same (`model/meaning.py`). Because
each stands alone, two files differ by a list of them, and that list can be applied.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from matrixgen.model import Design, Keyboard
from matrixgen.model.meaning import meaning_of
from matrixgen.record import Record

Path = tuple[str, ...]
Facts = dict[Path, Any]
"""Values by their paths; the first word says what kind of fact it is."""


SETTINGS = ("name", "maker", "usb", "debounce ms", "press ms", "once ms", "remember base")
"""What is said of the keyboard alone, by the meaning's words for it."""


class Names(Record):
    """How cells are written, by layer and key; and which are a name of the block `actions`."""

    of_cells: Mapping[tuple[str, str], str]
    written: Mapping[tuple[str, str], str]


def facts_of(design: Design) -> Facts:
    """Return what a file says."""
    meaning = meaning_of(design)
    return dict(
        [
            (("controllers",), meaning["controllers"]),
            (("allowed",), frozenset(meaning["allowed"])),
            *_pins(meaning),
            *_keyboard(meaning["keyboard"]),
            *_plate(meaning["keyboard"]),
            *_wiring(meaning["keyboard"]["wiring"]),
            *_layers(meaning["keyboard"]),
        ]
    )


def names_in_cells(keyboard: Keyboard) -> Names:
    """Return how the cells of all layers are written."""
    known = {named.name.text for named in keyboard.actions}
    cells = [(layer.name.text, cell) for layer in keyboard.layers for cell in layer.cells]
    written = {(layer, cell.key.text): cell.written.text for layer, cell in cells}
    given = {(layer, cell.key.text) for layer, cell in cells if cell.given}
    named = {cell: word for cell, word in written.items() if cell in given and word in known}
    return Names(named, written)


def _keyboard(keyboard: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    for name in SETTINGS:
        yield ("keyboard", name), keyboard[name]
    hold, double_reset = keyboard["boot loader"]
    yield ("boot loader", "hold"), hold
    yield ("boot loader", "double reset"), double_reset


def _pins(meaning: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    for line, pins in meaning["pins"].items():
        for place, pin in enumerate(pins):
            named = place < len(meaning["controllers"])
            yield ("pin", line, meaning["controllers"][place] if named else f"#{place}"), pin


def _plate(keyboard: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    lines = keyboard["plate"]
    yield (
        ("plate",),
        tuple((one["cluster"], tuple(k["name"] for k in one["keys"])) for one in lines),
    )
    yield ("clusters",), keyboard["clusters"]
    yield ("holes",), keyboard["holes"]
    yield ("kept clear",), keyboard["kept clear"]
    for line in lines:
        for key in line["keys"]:
            yield ("key", key["name"]), (key["centre"], key["size"], key["turned"])


def _wiring(wiring: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    for name in ("drive", "diodes", "settle us"):
        yield ("wiring", name), wiring[name]
    for kind in ("without diode", "reversed"):
        yield from (((kind, key), True) for key in wiring[kind])
    yield ("lines",), tuple(line["name"] for line in wiring["lines"])
    for line in wiring["lines"]:
        yield ("line", line["name"]), line["axis"]
        yield ("visits", line["name"]), line["visits"]
        if line["colour"] is not None:
            yield ("colour", line["name"]), line["colour"]


def _layers(keyboard: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    for name, action in keyboard["actions"].items():
        yield ("action", name), action
    yield ("layers",), tuple(layer["name"] for layer in keyboard["layers"])
    for layer in keyboard["layers"]:
        if layer["needs"]:
            yield ("needs", layer["name"]), layer["needs"]
        for key, action in layer["cells"].items():
            yield ("cell", layer["name"], key), action


def of_kind(facts: Facts, kind: str) -> dict[str, Any]:
    """Return the facts of a kind that are said of one name each, by that name."""
    return {path[1]: value for path, value in facts.items() if path[0] == kind}


def wires_of_keys(facts: Facts) -> dict[str, dict[str, str]]:
    """Return the wires of each key that is on one, by axis."""
    axes = of_kind(facts, "line")
    found: dict[str, dict[str, str]] = {}
    for line, keys in of_kind(facts, "visits").items():
        for key in keys:
            found.setdefault(key, {})[axes[line]] = line
    return found
