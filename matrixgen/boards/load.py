"""From a controller's name, or a path, to its profile."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from matrixgen.boards.problems import PROBLEMS
from matrixgen.boards.profile import Datasheet, Levels, Pin, Profile
from matrixgen.model.diagnostic import Diagnostic
from matrixgen.model.reason import reason_of
from matrixgen.model.similar import similar_help
from matrixgen.model.text import Span, Word
from matrixgen.resources import resource

PLANNED_PIN_FARAD = 10e-12
"""Capacitance of a pin where the profile gives none: a planning figure, no source."""

SCHEMA_SUFFIX = ".schema.json"


@cache
def builtin_names() -> tuple[str, ...]:
    """Return the names of the built-in profiles, in alphabetical order."""
    files = resource("boards").glob("*.json")
    return tuple(sorted(f.stem for f in files if not f.name.endswith(SCHEMA_SUFFIX)))


def builtin_profile(name: str) -> Profile | None:
    """Return a built-in profile, or None where there is none of that name."""
    if name not in builtin_names():
        return None
    return _profile(json.loads((resource("boards") / f"{name}.json").read_text("utf-8")), None)


def is_path(controller: str) -> bool:
    """Whether a controller is given by the path of a profile and not by a built-in name."""
    return controller.endswith(".json") or "/" in controller or "\\" in controller


def load_profile(controller: Word, folder: Path) -> tuple[Profile | None, list[Diagnostic]]:
    """Return the profile of a controller, or what is wrong with its name or its file.

    `controller` is a built-in name or a path, relative paths from `folder` (that of the .keys
    file). The profile is None exactly where the list holds an error.
    """
    if is_path(controller.text):
        return _own_profile(folder / controller.text, controller.span)
    found = builtin_profile(controller.text)
    if found:
        return found, []
    help = similar_help(controller.text, builtin_names(), digits_count=False)
    return None, [
        PROBLEMS["unknown-controller"].at(
            controller.span,
            f"no controller is called `{controller.text}`",
            help=help or "`matrixgen boards` lists the controllers",
        )
    ]


def _own_profile(path: Path, blamed: Span) -> tuple[Profile | None, list[Diagnostic]]:
    shown = str(path)
    unreadable = PROBLEMS["unreadable-profile"]
    try:
        text = path.read_bytes().decode("utf-8-sig")
        document = json.loads(text, parse_constant=_no_number)
    except OSError as error:
        reason = reason_of(error)
        return None, [unreadable.at(blamed, f"`{shown}` cannot be read: {reason}")]
    except UnicodeDecodeError:
        return None, [unreadable.at(blamed, f"`{shown}` is not UTF-8 text")]
    except json.JSONDecodeError as error:
        line, column = error.lineno, error.colno
        place = Span.in_line(shown, line, column, 1)
        return None, [unreadable.at(place, f"not JSON: {error.msg.lower()}")]
    except (RecursionError, ValueError):
        return None, [unreadable.at(blamed, f"`{shown}` is nested too deeply or out of range")]
    return _validated(document, text, shown, blamed)


def _no_number(name: str) -> None:
    """Refuse NaN and Infinity, which Python's decoder would take and JSON does not have."""
    raise ValueError(name)


def _validated(
    document: Any, text: str, shown: str, blamed: Span
) -> tuple[Profile | None, list[Diagnostic]]:
    from matrixgen.boards.validate import validate  # only here: jsonschema is slow to import

    try:
        mistakes = validate(document, text, shown)
    except RecursionError:
        mistakes = [PROBLEMS["unreadable-profile"].at(blamed, f"`{shown}` is nested too deeply")]
    return (None, mistakes) if mistakes else (_profile(document, shown), [])


def _levels(document: dict[str, Any]) -> Levels:
    return Levels(document["low_max"], document["high_min"])


def _pin(document: dict[str, Any]) -> Pin:
    label = document.get("label")
    return Pin(
        name=document["name"],
        label=None if label == document["name"] else label,
        use=document["use"],
        duty=document.get("duty"),
        advice=document.get("advice"),
        output=document.get("output", True),
        pull_up=document.get("pull_up", True),
        levels=_levels(document["input_volts"]) if "input_volts" in document else None,
    )


def _profile(document: dict[str, Any], path: str | None) -> Profile:
    levels = _levels(document["input_volts"])
    as_given = ("name", "title", "chip", "family", "port", "proof", "supply_volts")
    whole = ("clock_hz", "flash_bytes", "ram_bytes", "boot_loader_bytes")
    plain: dict[str, Any] = {field: document[field] for field in as_given}
    plain |= {field: int(document[field]) for field in whole}  # JSON may write 16000000.0
    return Profile(
        **plain,
        datasheet=Datasheet(**document["datasheet"]),
        pull_up_ohm_min=document["pull_up_ohm"]["min"],
        pull_up_ohm_max=document["pull_up_ohm"]["max"],
        input_low_volts=levels.low_max,
        input_high_volts=levels.high_min,
        pin_farad=document.get("pin_farad", PLANNED_PIN_FARAD),
        sources=tuple(document["sources"].items()),
        pins=tuple(_pin(pin) for pin in document["pins"]),
        path=path,
    )
