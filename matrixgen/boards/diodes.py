"""From a diode's name, or a path, to what is known of it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import islice, pairwise
from pathlib import Path
from typing import Any

from matrixgen.boards.diode_part import DiodePart, ForwardPoint, Leak
from matrixgen.boards.own_json import Committed, JsonKind, OwnJson, read_json
from matrixgen.boards.paths import is_path
from matrixgen.boards.problems import PROBLEMS
from matrixgen.model.diagnostic import Diagnostic
from matrixgen.model.text import Word
from matrixgen.resources import json_in
from matrixgen.similar import similar_help

DIODES_FILE = "diodes.json"

USUAL_DIODE = "1N4148"
"""The diode that is reckoned with where a file does not say (common practice, no source)."""


@cache
def builtin_diodes() -> dict[str, DiodePart]:
    """Return the built-in diodes by their names."""
    return {one["name"]: _diode(one, None) for one in json_in("boards", DIODES_FILE)["diodes"]}


def usual_diode() -> DiodePart:
    """Return the diode that is reckoned with where a file does not say."""
    return builtin_diodes()[USUAL_DIODE]


def load_diode(
    part: Word | None, folder: Path, committed: Committed | None = None
) -> tuple[DiodePart | None, list[Diagnostic]]:
    """Return what is known of a diode, and what is wrong with its name or its file.

    `part` is a built-in name or a path, relative paths from `folder` (that of the .keys file), or
    None where the file does not say. What a revision has there goes before what the folder has. A
    name that is not known is no error: the diode is None then.
    """
    if part is None:
        return usual_diode(), []
    if is_path(part.text):
        return _own_diode(folder, part, committed(part.text) if committed else None)
    found = builtin_diodes().get(part.text)
    return found, [] if found else [_unknown(part)]


def _unknown(part: Word) -> Diagnostic:
    folded = {name.casefold(): name for name in builtin_diodes()}
    same = folded.get(part.text.casefold())
    near = f"it is written `{same}`" if same else similar_help(part.text, builtin_diodes())
    names = ", ".join(builtin_diodes())
    return PROBLEMS["unknown-diode"].at(
        part.span,
        f"the diode `{part}` is unknown, so voltage levels cannot be checked",
        help=[*filter(None, [near]), f"known are {names}; or give the path of a file of your own"],
        about=[part.text],
    )


def _schema() -> dict[str, Any]:
    """Return the published schema of a file of diodes."""
    schema: dict[str, Any] = json_in("boards", "diodes.schema.json")
    return schema


def _fields() -> tuple[str, ...]:
    """Return the names of fields that every file of a diode has."""
    schema = _schema()
    return (*schema["required"], *schema["$defs"]["diode"]["required"])


def _own_diode(
    folder: Path, part: Word, committed: bytes | None
) -> tuple[DiodePart | None, list[Diagnostic]]:
    kind = JsonKind(
        called="a file of a diode",
        unreadable=PROBLEMS["unreadable-diode"],
        fields=_fields,
        mistakes=validate_diodes,
    )
    read = read_json(folder / part.text, folder, part.span, kind, committed)
    if isinstance(read, list):
        return None, read
    return _diode(read.document["diodes"][0], read.shown), []


def validate_diodes(read: OwnJson) -> list[Diagnostic]:
    """Return every mistake of a user's own file: by its schema, or else by what makes no sense."""
    from matrixgen.boards.by_schema import MOST_MISTAKES, Schema
    from matrixgen.boards.json_places import places_in

    places = places_in(read.text, read.shown)
    bad = PROBLEMS["bad-diode"]
    by_schema = Schema(document=_schema(), whole="the file", problem=bad)
    mistakes = by_schema.mistakes(read.document, places)
    if mistakes:
        return mistakes
    if len(read.document["diodes"]) > 1:
        place = places.values["diodes", 1]
        mistakes.append(bad.at(place, "a file of your own has one diode; this is another"))
    senseless = _senseless(read.document["diodes"][0]["forward"])
    for number, why in islice(senseless, MOST_MISTAKES):
        mistakes.append(bad.at(places.values["diodes", 0, "forward", number], why))
    return mistakes


def _senseless(points: list[dict[str, float]]) -> Iterator[tuple[int, str]]:
    """Yield each point of a forward curve that contradicts itself or the one before it."""
    for number, point in enumerate(points):
        if point["volts_typical"] > point["volts_max"]:
            yield number, "`volts_typical` is more than `volts_max`"
    for number, (before, point) in enumerate(pairwise(points), start=1):
        if point["ampere"] <= before["ampere"]:
            yield number, "`ampere` is not more than that of the point before"
        elif any(point[name] <= before[name] for name in ("volts_typical", "volts_max")):
            yield number, "the voltage does not grow with the current"


def _diode(document: dict[str, Any], path: str | None) -> DiodePart:
    return DiodePart(
        name=document["name"],
        title=document["title"],
        forward=tuple(ForwardPoint(**point) for point in document["forward"]),
        zero_bias_farad=document["zero_bias_farad"],
        reverse_volts=document["reverse_volts"],
        sources=tuple(document["sources"].items()),
        leak=Leak(**document["leak"]) if "leak" in document else None,
        path=path,
    )
