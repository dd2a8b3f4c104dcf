"""A profile that is like another one, but for what it says itself.

`like` names the other one, which is built in. Each field that is not given is as there, without
those that `without` lists. A field that is given counts whole, but `sources` and `pins` are laid
over by name: what is not named is as there. A pin with a `use` is described anew; one without has
what is given besides what it has there. Pins keep their order, and new ones come last.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from matrixgen.boards.json_places import JsonPath, JsonPlaces

LIKE, WITHOUT = "like", "without"

Document = dict[str, Any]


class Whole(NamedTuple):
    """A profile's JSON with all that it takes from another.

    `from_own` has the place of each pin among the profile's own, None for one that is taken.
    """

    document: Document
    from_own: list[int | None]


def is_laid_over(document: object) -> bool:
    """Whether a profile's JSON lays over another one."""
    return isinstance(document, dict) and LIKE in document


def laid_over(own: Document, builtin: Callable[[str], Document]) -> Whole:
    """Return the whole of a profile that is `like` one which `builtin` returns whole."""
    below, gone = builtin(own[LIKE]), own.get(WITHOUT, [])
    given = {field: value for field, value in own.items() if field not in (LIKE, WITHOUT)}
    whole = {field: value for field, value in below.items() if field not in gone} | given
    if isinstance(given.get("sources"), dict):
        whole["sources"] = below["sources"] | given["sources"]
    pins = given.get("pins", [])
    if not _are_pins(pins):
        return Whole(whole, list(range(len(pins))) if isinstance(pins, list) else [])
    laid = list(_laid(pins, below["pins"]))
    return Whole(whole | {"pins": [pin for _, pin in laid]}, [place for place, _ in laid])


def _are_pins(pins: object) -> bool:
    """Whether pins can be laid over others; else the schema says what they lack."""
    return isinstance(pins, list) and all(
        isinstance(pin, dict) and isinstance(pin.get("name"), str) for pin in pins
    )


def _laid(own: list[Document], below: list[Document]) -> Iterator[tuple[int | None, Document]]:
    """Yield each pin with its place among the profile's own; one named twice comes twice."""
    first = {pin["name"]: place for place, pin in reversed(list(enumerate(own)))}
    for pin in below:
        place = first.get(pin["name"])
        if place is None:
            yield None, pin
        else:
            yield place, own[place] if "use" in own[place] else pin | own[place]
    taken = {first[pin["name"]] for pin in below if pin["name"] in first}
    yield from ((place, pin) for place, pin in enumerate(own) if place not in taken)


def places_of(whole: Whole, own: Document, places: JsonPlaces) -> JsonPlaces:
    """Return where the parts of the whole stand: in the profile's own text, or at its `like`."""
    found = JsonPlaces(places.values[()])
    found.doubled = places.doubled
    for path in _paths(whole.document):
        there = path
        if path[0] == "pins" and len(path) > 1:
            place = whole.from_own[int(path[1])]
            there = (LIKE,) if place is None else ("pins", place, *path[2:])
        span = places.nearest(there) if there[0] in own else places.values[LIKE,]
        found.values[path] = span
        found.names[path] = places.names.get(there, span)
    return found


def _paths(value: object, path: JsonPath = ()) -> Iterator[JsonPath]:
    """Yield the path of each value within a JSON document."""
    parts: list[tuple[str | int, object]] = []
    if isinstance(value, dict):
        parts = list(value.items())
    elif isinstance(value, list):
        parts = list(enumerate(value))
    for name, part in parts:
        yield (*path, name)
        yield from _paths(part, (*path, name))
