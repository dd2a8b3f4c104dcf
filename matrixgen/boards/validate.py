"""Whether a user's own profile is what the schema says, and makes sense.

Built-in profiles never come here: the tests hold them to the same schema and the same rules, so
that a run with a built-in one need not wait for jsonschema.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from math import inf
from typing import Any

from matrixgen.boards.builtin import builtin_document, builtin_names
from matrixgen.boards.by_schema import MOST_MISTAKES, Schema
from matrixgen.boards.edge_checks import by_edges
from matrixgen.boards.entry_checks import by_entry
from matrixgen.boards.json_places import JsonPath, JsonPlaces, places_in
from matrixgen.boards.laid_over import LIKE, WITHOUT, is_laid_over, laid_over, places_of
from matrixgen.boards.port_checks import by_port
from matrixgen.boards.problems import PROBLEMS
from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.model.prose import brief
from matrixgen.resources import json_in
from matrixgen.similar import similar_help

BAD = PROBLEMS["bad-profile"]


def schema() -> dict[str, Any]:
    """Return the published schema of a profile."""
    found: dict[str, Any] = json_in("boards", "profile.schema.json")
    return found


def validate(document: Any, text: str, shown_path: str) -> list[Diagnostic]:
    """Return every mistake of a profile: by its schema, or else by how its figures agree.

    One that is like another is checked with all that it takes from there. What is wrong with that
    is reported where `like` stands.
    """
    places = places_in(text, shown_path)
    if is_laid_over(document):
        if wrong := _by_like(document, places):
            return wrong
        whole = laid_over(document, builtin_document)
        document, places = whole.document, places_of(whole, document, places)
    checked = Schema(document=schema_of_whole(), whole="the profile", problem=BAD)
    return checked.mistakes(document, places) or [
        *islice(_by_sense(document, places), MOST_MISTAKES)
    ]


def schema_of_whole() -> dict[str, Any]:
    """Return what a profile has to be that takes nothing from another, or has taken it."""
    found = schema()
    del found["if"]
    asked = found.pop("else")
    found["properties"]["sources"] |= asked["properties"]["sources"]
    found["$defs"]["pin"] |= asked["properties"]["pins"]["items"]
    return found | {"required": asked["required"]}


def _by_like(document: dict[str, Any], places: JsonPlaces) -> list[Diagnostic]:
    """Return what is wrong with which profile another one is like, and what it leaves out."""
    fields = schema()["properties"]
    only = {"properties": {name: fields[name] for name in (LIKE, WITHOUT)}}
    if wrong := Schema(document=only, whole="the profile", problem=BAD).mistakes(document, places):
        return wrong
    name, known = document[LIKE], builtin_names()
    if name in known:
        return []
    listed = "`matrixgen boards` lists the controllers; a file cannot be named here"
    message = f"no built-in controller is called `{brief(name)}`"
    help = similar_help(name, known, digits_count=False) or listed
    return [BAD.at(places.values[LIKE,], message, help=help)]


def _by_sense(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    yield from _doubled_pins(document, places)
    if document["boot_loader_bytes"] >= document["flash_bytes"]:
        yield BAD.at(
            places.values["boot_loader_bytes",],
            "the boot loader takes all of the flash",
            notes=[Note("the flash is given here", places.values["flash_bytes",])],
        )
    yield from _ranges(document, places)
    yield from _supply(document, places)
    yield from _outputs(document, places)
    yield from by_port(document, places)
    yield from by_entry(document, places)
    yield from by_edges(document, places)
    if not any(pin["use"] != "reserved" for pin in document["pins"]):
        yield BAD.at(places.names["pins",], "every pin is reserved", help="free at least two")


def _ranges(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield each pull-up and each pair of levels whose figures are the wrong way round."""
    for path, part in _parts(document):
        pull_up, levels = part.get("pull_up_ohm"), part.get("input_volts")
        if pull_up and pull_up["min"] > pull_up["max"]:
            yield BAD.at(places.values[*path, "pull_up_ohm"], "`min` is more than `max`")
        if levels and levels["low_max"] >= levels["high_min"]:
            place = places.values[*path, "input_volts"]
            yield BAD.at(place, "`low_max` is not less than `high_min`")


def _supply(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield a range of the supply that the usual supply is not in."""
    range_of, volts = document.get("supply_range"), document["supply_volts"]
    if range_of and not range_of["min"] <= volts <= range_of["max"]:
        yield BAD.at(
            places.values["supply_range",],
            f"`supply_volts` is {volts:g}, which is not between `min` and `max`",
            notes=[Note("it is given here", places.values["supply_volts",])],
        )


def _outputs(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    """Yield limits that contradict each other, and figures of what a pin is said not to have."""
    output_low = document.get("output_low", {})
    if output_low.get("pin_ampere", 0) > output_low.get("total_ampere", inf):
        yield BAD.at(
            places.values["output_low", "pin_ampere"],
            "one pin may sink more than all together",
            notes=[Note("that limit is given here", places.values["output_low", "total_ampere"])],
        )
    for path, pin in _pins(document):
        for having, figure in (("output", "sink_ampere"), ("pull_up", "pull_up_ohm")):
            if pin.get(having) is False and figure in pin:
                yield BAD.at(
                    places.values[*path, figure],
                    f"`{pin['name']}` has a `{figure}`, but no `{having}`",
                    notes=[Note("it is taken from it here", places.values[*path, having])],
                )


def _pins(document: dict[str, Any]) -> Iterator[tuple[JsonPath, dict[str, Any]]]:
    """Yield each pin with its place."""
    for number, pin in enumerate(document["pins"]):
        yield ("pins", number), pin


def _parts(document: dict[str, Any]) -> Iterator[tuple[JsonPath, dict[str, Any]]]:
    """Yield all that may have a pull-up and levels: the whole, and each pin."""
    yield (), document
    yield from _pins(document)


def _doubled_pins(document: dict[str, Any], places: JsonPlaces) -> Iterator[Diagnostic]:
    first: dict[str, JsonPath] = {}
    for number, pin in enumerate(document["pins"]):
        for field in ("name", "label"):
            path: JsonPath = ("pins", number, field)
            if field not in pin or (field == "label" and pin["label"] == pin["name"]):
                continue
            earlier = first.setdefault(pin[field], path)
            if earlier != path:
                yield BAD.at(
                    places.values[path],
                    f"`{pin[field]}` names two pins",
                    notes=[Note("the other one is here", places.values[earlier])],
                )
