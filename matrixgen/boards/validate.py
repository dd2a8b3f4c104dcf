"""Whether a user's own profile is what the schema says, and makes sense.

Built-in profiles never come here: the tests hold them to the same schema and the same rules, so
that a run with a built-in one need not wait for jsonschema.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import islice
from math import inf
from typing import Any

from matrixgen.boards.by_schema import MOST_MISTAKES, Schema
from matrixgen.boards.edge_checks import by_edges
from matrixgen.boards.entry_checks import by_entry
from matrixgen.boards.json_places import Path, Places, places_in
from matrixgen.boards.port_checks import by_port
from matrixgen.boards.problems import PROBLEMS
from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.resources import resource

BAD = PROBLEMS["bad-profile"]


def schema() -> dict[str, Any]:
    """Return the published schema of a profile."""
    text = (resource("boards") / "profile.schema.json").read_text(encoding="utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded


def validate(document: Any, text: str, shown_path: str) -> list[Diagnostic]:
    """Return every mistake of a profile: by its schema, or else by how its figures agree."""
    places = places_in(text, shown_path)
    checked = Schema(document=schema(), whole="the profile", problem=BAD)
    return checked.mistakes(document, places) or [
        *islice(_by_sense(document, places), MOST_MISTAKES)
    ]


def _by_sense(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
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


def _ranges(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    """Yield each pull-up and each pair of levels whose figures are the wrong way round."""
    for path, part in _parts(document):
        pull_up, levels = part.get("pull_up_ohm"), part.get("input_volts")
        if pull_up and pull_up["min"] > pull_up["max"]:
            yield BAD.at(places.values[*path, "pull_up_ohm"], "`min` is more than `max`")
        if levels and levels["low_max"] >= levels["high_min"]:
            place = places.values[*path, "input_volts"]
            yield BAD.at(place, "`low_max` is not less than `high_min`")


def _supply(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    """Yield a range of the supply that the usual supply is not in."""
    range_of, volts = document.get("supply_range"), document["supply_volts"]
    if range_of and not range_of["min"] <= volts <= range_of["max"]:
        yield BAD.at(
            places.values["supply_range",],
            f"`supply_volts` is {volts:g}, which is not between `min` and `max`",
            notes=[Note("it is given here", places.values["supply_volts",])],
        )


def _outputs(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
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


def _pins(document: dict[str, Any]) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Yield each pin with its place."""
    for number, pin in enumerate(document["pins"]):
        yield ("pins", number), pin


def _parts(document: dict[str, Any]) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Yield all that may have a pull-up and levels: the whole, and each pin."""
    yield (), document
    yield from _pins(document)


def _doubled_pins(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    first: dict[str, Path] = {}
    for number, pin in enumerate(document["pins"]):
        for field in ("name", "label"):
            path: Path = ("pins", number, field)
            if field not in pin or (field == "label" and pin["label"] == pin["name"]):
                continue
            earlier = first.setdefault(pin[field], path)
            if earlier != path:
                yield BAD.at(
                    places.values[path],
                    f"`{pin[field]}` names two pins",
                    notes=[Note("the other one is here", places.values[earlier])],
                )
