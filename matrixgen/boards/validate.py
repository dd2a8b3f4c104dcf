"""Whether a user's own profile is what the schema says, and makes sense.

Built-in profiles never come here: the tests hold them to the same schema and the same rules, so
that a run with a built-in one need not wait for jsonschema.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from matrixgen.boards.json_places import Path, Places, places_in
from matrixgen.boards.problems import PROBLEMS
from matrixgen.families import FAMILIES, Family
from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.model.prose import listed, quoted
from matrixgen.model.similar import similar_help, similar_name
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
    doubled = [
        BAD.at(span, f"`{path[-1]}` is given twice", help="remove one of the two")
        for path, span in places.doubled
    ]
    by_schema = doubled + list(_by_schema(document, places))
    return by_schema or list(_by_sense(document, places))


def _by_schema(document: Any, places: Places) -> Iterator[Diagnostic]:
    from jsonschema import Draft202012Validator

    for error in Draft202012Validator(schema()).iter_errors(document):
        yield from _diagnostics(error, places)


def _diagnostics(error: Any, places: Places) -> Iterator[Diagnostic]:
    path: Path = tuple(error.absolute_path)
    what = _name_of(path)
    note = [_described(error.schema)] if "description" in error.schema else []
    if error.validator == "required":
        # jsonschema yields one error a missing name; its message starts with that name, quoted.
        missing = next(
            name for name in error.validator_value if error.message.startswith(f"'{name}'")
        )
        known = error.schema.get("properties", {})
        if similar_name(missing, [name for name in error.instance if name not in known]):
            return  # misspelt: told of once, as a field that there is not
        wanted = known.get(missing, {})
        yield BAD.at(
            places.nearest(path),
            f"{what} lacks `{missing}`",
            notes=[_described(wanted)] if "description" in wanted else (),
        )
    elif error.validator == "additionalProperties" and error.validator_value is False:
        known = error.schema["properties"]
        for name in [name for name in error.instance if name not in known]:
            yield BAD.at(
                places.names[(*path, name)],
                f"{what} has no field `{name}`",
                help=similar_help(name, known),
            )
    else:
        yield BAD.at(places.nearest(path), f"{what} {_complaint(error)}", notes=note)


def _described(schema: dict[str, Any]) -> Note:
    """Return what the schema says of a field, as a note: lower case, no full stop."""
    text: str = schema["description"].rstrip(".")
    return Note(text if text[1:2].isupper() else text[:1].lower() + text[1:])


def _complaint(error: Any) -> str:
    """Return what is wrong with one value, worded to follow its name."""
    wanted = error.validator_value
    match error.validator:
        case "type":
            kinds = [wanted] if isinstance(wanted, str) else wanted
            return f"is not {listed([_KINDS[kind] for kind in kinds], 'or')}"
        case "enum":
            return f"is none of {quoted(map(_shown, wanted))}"
        case "pattern":
            return f"`{_shown(error.instance)}` does not have the form it must have"
        case "minimum":
            return f"is less than {wanted}"
        case "exclusiveMinimum":
            return f"is not more than {wanted}"
        case "maximum":
            return f"is more than {wanted}"
        case _:
            return "is empty"  # minLength and minItems, the schema's only others


_KINDS = {
    "string": "a text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "object": "a group of fields in braces",
    "array": "a list in square brackets",
}


def _shown(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value)


def _name_of(path: Path) -> str:
    """Return how a message calls the value at `path`."""
    if not path:
        return "the profile"
    if len(path) == 2 and path[0] == "pins":
        return "the pin"
    names = [str(part) for part in path if isinstance(part, str)]
    return f"`{names[-1]}`"


def _by_sense(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    yield from _doubled_pins(document, places)
    if document["boot_loader_bytes"] >= document["flash_bytes"]:
        yield BAD.at(
            places.values["boot_loader_bytes",],
            "the boot loader takes all of the flash",
            notes=[Note("the flash is given here", places.values["flash_bytes",])],
        )
    if document["pull_up_ohm"]["min"] > document["pull_up_ohm"]["max"]:
        yield BAD.at(places.values["pull_up_ohm",], "`min` is more than `max`")
    for path in _levels(document):
        levels = document
        for part in path:
            levels = levels[part]  # type: ignore[index] # a path's part fits what it leads into
        if levels["low_max"] >= levels["high_min"]:
            yield BAD.at(places.values[path], "`low_max` is not less than `high_min`")
    yield from _by_port(document, places)
    if not any(pin["use"] != "reserved" for pin in document["pins"]):
        yield BAD.at(places.names["pins",], "every pin is reserved", help="free at least two")


def _by_port(document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    """Yield what the port's firmware cannot be built from, which else its compiler would say."""
    port, family = document["port"], document["family"]
    if port is None:
        return
    if port != family:
        yield BAD.at(
            places.values["port",],
            f"the port `{port}` is not for the family `{family}`",
            help=f'write `"port": "{family}"`, or null where there is no firmware for the chip',
            notes=[Note("the family is given here", places.values["family",])],
        )
    else:
        yield from _by_family(FAMILIES[family], document, places)


def _by_family(family: Family, document: dict[str, Any], places: Places) -> Iterator[Diagnostic]:
    if document["chip"].lower() not in family.chips:
        yield BAD.at(
            places.values["chip",],
            f"the port `{family.name}` has no firmware for the chip `{document['chip']}`",
            help='write `"port": null`, and `check` works all the same',
            notes=[Note(f"it has firmware for {quoted(family.chips)}")],
        )
    if family.clocks_hz and document["clock_hz"] not in family.clocks_hz:
        clocks = listed(map(str, family.clocks_hz), "or")
        yield BAD.at(
            places.values["clock_hz",],
            f"the port `{family.name}` needs a clock of {clocks} Hz, which it makes 48 MHz of",
        )
    for number, pin in enumerate(document["pins"]):
        if pin["use"] != "reserved" and family.place_of(pin["name"]) is None:
            yield BAD.at(
                places.values["pins", number, "name"],
                f"`{pin['name']}` is no name of a pin of the family `{family.name}`",
                help=f"write the datasheet's, such as `{family.pin_example}`; "
                "the word on the board is the `label`",
            )


def _levels(document: dict[str, Any]) -> Iterator[Path]:
    yield ("input_volts",)
    for number, pin in enumerate(document["pins"]):
        if "input_volts" in pin:
            yield ("pins", number, "input_volts")


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
