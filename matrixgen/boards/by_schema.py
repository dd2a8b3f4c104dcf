"""Whether a user's own file is what its schema says: of a controller, or of a diode."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import chain, islice
from typing import Any

from matrixgen.boards.json_places import JsonPath, JsonPlaces
from matrixgen.model.diagnostic import Diagnostic, Note, Problem
from matrixgen.model.prose import brief, listed, quoted
from matrixgen.record import Record
from matrixgen.similar import similar_help, similar_name

MOST_MISTAKES = 100
"""How many mistakes of one file are reported: nobody reads more, and some have thousands."""


class Schema(Record, kw_only=True):
    """A JSON Schema, what messages call a whole document of it, and the kind of its mistakes."""

    document: dict[str, Any]
    whole: str
    problem: Problem

    def mistakes(self, document: Any, places: JsonPlaces) -> list[Diagnostic]:
        """Return in which ways a document is not what the schema says, `MOST_MISTAKES` at most."""
        doubled = (
            self.problem.at(
                span, f"`{brief(str(path[-1]))}` is given twice", help="remove one of the two"
            )
            for path, span in places.doubled
        )
        return [*islice(chain(doubled, self._by_schema(document, places)), MOST_MISTAKES)]

    def _by_schema(self, document: Any, places: JsonPlaces) -> Iterator[Diagnostic]:
        from jsonschema import Draft202012Validator  # slow to import

        for error in Draft202012Validator(self.document).iter_errors(document):
            yield from self._diagnostics(error, places)

    def _diagnostics(self, error: Any, places: JsonPlaces) -> Iterator[Diagnostic]:
        path: JsonPath = tuple(error.absolute_path)
        what = self._name_of(path)
        note = [_described(error.schema)] if "description" in error.schema else []
        if error.validator == "required":
            # jsonschema yields one error a missing name; its message starts with that name, quoted.
            missing = next(
                name for name in error.validator_value if error.message.startswith(f"'{name}'")
            )
            known = error.schema.get("properties", {})
            if similar_name(missing, [name for name in error.instance if name not in known]):
                return  # misspelt: reported once, as a field that there is not
            wanted = known.get(missing, {})
            yield self.problem.at(
                places.nearest(path),
                f"{what} lacks `{missing}`",
                notes=[_described(wanted)] if "description" in wanted else (),
            )
        elif error.validator == "additionalProperties" and error.validator_value is False:
            known = error.schema["properties"]
            for name in [name for name in error.instance if name not in known]:
                yield self.problem.at(
                    places.names[(*path, name)],
                    f"{what} has no field `{brief(name)}`",
                    help=similar_help(name, known),
                )
        else:
            yield self.problem.at(places.nearest(path), f"{what} {_complaint(error)}", notes=note)

    def _name_of(self, path: JsonPath) -> str:
        """Return how a message calls the value at `path`."""
        if not path:
            return self.whole
        if len(path) == 2 and path[0] in _PARTS:
            return _PARTS[path[0]]
        names = [str(part) for part in path if isinstance(part, str)]
        return f"`{brief(names[-1])}`"


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
            return f"is not one of {quoted(map(_shown, wanted))}"
        case "pattern":
            return f"`{_shown(error.instance)}` does not have the form it must have"
        case "minimum":
            return f"is less than {wanted}"
        case "exclusiveMinimum":
            return f"is not more than {wanted}"
        case "maximum":
            return f"is more than {wanted}"
        case "anyOf":
            return f"lacks {quoted((one['required'][0] for one in wanted), 'or')}"
        case "minItems" if wanted > 1:
            return f"has fewer than {wanted} entries"
        case _:
            return "is empty"  # minLength and minItems, the schema's only others


_PARTS: dict[str | int, str] = {"pins": "the pin", "edges": "the edge", "around": "the part"}
"""How a message calls one element of a list."""

_KINDS = {
    "string": "a text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "object": "a group of fields in braces",
    "array": "a list in square brackets",
}


def _shown(value: Any) -> str:
    return brief(value if isinstance(value, str) else json.dumps(value))
