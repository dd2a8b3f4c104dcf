"""From a controller's name, or a path, to its profile."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from matrixgen.boards.around import Around, BootLoaderEntry
from matrixgen.boards.builtin import builtin_document, builtin_names
from matrixgen.boards.edge import Edge
from matrixgen.boards.laid_over import LIKE, is_laid_over, laid_over
from matrixgen.boards.outline import BoardOutline
from matrixgen.boards.own_json import Committed, JsonKind, OwnJson, read_json
from matrixgen.boards.paths import is_path
from matrixgen.boards.pin import Pin, SupplyRange, Thresholds
from matrixgen.boards.problems import PROBLEMS
from matrixgen.boards.profile import Datasheet, Profile
from matrixgen.boards.proofs import proof_of
from matrixgen.model.diagnostic import Diagnostic, Fix
from matrixgen.model.text import Edit, Span, Word
from matrixgen.record import changed
from matrixgen.similar import similar_help

PLANNED_PIN_FARAD = 10e-12
"""Capacitance of a pin where the profile gives none: a planning figure, no source."""

PLANNED_OUTPUT_LOW_OHM = 100.0
"""Resistance of a pin that pulls low where the profile gives none: a planning figure, no source."""

MOST_REGULATED_VOLTS = 3.7
"""From here on a supply is taken to be USB's own, and below it that of a regulator."""

USB_SUPPLY = SupplyRange(
    4.35,
    5.25,
    "USB 2.0 section 7.2.2 and figure 7-47, from memory: a keyboard must run from 4.40 V, counted "
    "at the computer's end of its cable, which leaves 4.35 V at its own socket; 5.25 V at most",
)

REGULATOR_SHARE = 0.02
REGULATOR_SOURCE = "a regulator holds its voltage to 2 %: datasheets of two such regulators"

OF_EACH = ("name", "title", LIKE)
"""What a profile has that lays over another one."""


@lru_cache(maxsize=64)
def builtin_profile(name: str) -> Profile | None:
    """Return a built-in profile, or None where there is none of that name."""
    return _profile(builtin_document(name), None) if name in builtin_names() else None


def load_profile(
    controller: Word, folder: Path, committed: Committed | None = None
) -> tuple[Profile | None, list[Diagnostic]]:
    """Return the profile of a controller, or what is wrong with its name or its file.

    `controller` is a built-in name or a path, relative paths from `folder` (that of the .keys
    file). What a revision has there goes before what the folder has. The profile is None exactly
    where the list holds an error.
    """
    if is_path(controller.text):
        there = committed(controller.text) if committed else None
        return _own_profile(folder / controller.text, folder, controller.span, there)
    found = builtin_profile(controller.text)
    if found:
        return found, []
    return None, [_unknown(controller)]


def _unknown(controller: Word) -> Diagnostic:
    """Return what is said of a name that no built-in profile has."""
    from matrixgen.boards.without_usb import why_no_keyboard  # only here: few files need it

    name, known = controller.text, builtin_names()
    message, listed = (
        f"no controller is called `{name}`",
        "`matrixgen boards` lists the controllers",
    )
    help = similar_help(name, known, digits_count=False) or listed
    if reason := why_no_keyboard(name):
        message, help = f"`{name}` cannot be a keyboard: {reason}", f"{listed} that can"
    spelt = next((one for one in known if one == name.casefold()), None)
    fix = Fix(f"write `{spelt}` for `{name}`", (Edit(controller.span, spelt),)) if spelt else None
    return PROBLEMS["unknown-controller"].at(controller.span, message, help=help, fix=fix)


def load_named(controller: str) -> tuple[Profile | None, list[Diagnostic]]:
    """Return the profile of a controller that a command line names, or what is wrong with it."""
    place = Span.start_of(controller)
    if is_path(controller):
        return _own_profile(Path(controller), None, place)
    return load_profile(Word(controller, place), Path())


def _fields() -> tuple[str, ...]:
    """Return the names of fields that every profile has."""
    from matrixgen.boards.validate import schema_of_whole

    return tuple(schema_of_whole()["required"])


def _own_profile(
    path: Path, folder: Path | None, blamed: Span, committed: bytes | None = None
) -> tuple[Profile | None, list[Diagnostic]]:
    kind = JsonKind(
        called="a profile",
        unreadable=PROBLEMS["unreadable-profile"],
        fields=_fields,
        mistakes=_mistakes,
        or_all=OF_EACH,
    )
    read = read_json(path, folder, blamed, kind, committed)
    if isinstance(read, list):
        return None, read
    document = read.document
    if is_laid_over(document):
        document = laid_over(document, builtin_document).document
    return _profile(document, read.shown), []


def _mistakes(read: OwnJson) -> list[Diagnostic]:
    from matrixgen.boards.validate import validate  # only here: jsonschema is slow to import

    return validate(read.document, read.text, read.shown)


def _levels(document: dict[str, Any]) -> Thresholds:
    per_volt = (document.get("low_max_per_volt"), document.get("high_min_per_volt"))
    return Thresholds(document["low_max"], document["high_min"], *per_volt)


def _supply(document: dict[str, Any]) -> SupplyRange:
    """Return the range of the supply: as it is given, or as USB and regulators have it."""
    volts, given = document["supply_volts"], document.get("supply_range")
    if given:
        return SupplyRange(given["min"], given["max"], given["source"])
    if volts > MOST_REGULATED_VOLTS:
        return changed(USB_SUPPLY, min=min(volts, USB_SUPPLY.min), max=max(volts, USB_SUPPLY.max))
    least, most = (round(volts * (1 + share), 6) for share in (-REGULATOR_SHARE, REGULATOR_SHARE))
    return SupplyRange(least, most, REGULATOR_SOURCE)


def _pin(document: dict[str, Any]) -> Pin:
    label, pull_up = document.get("label"), document.get("pull_up_ohm", {})
    return Pin(
        name=document["name"],
        label=None if label == document["name"] else label,
        use=document["use"],
        duty=document.get("duty"),
        advice=document.get("advice"),
        output=document.get("output", True),
        pull_up=document.get("pull_up", True),
        levels=_levels(document["input_volts"]) if "input_volts" in document else None,
        pull_up_ohm_min=pull_up.get("min"),
        pull_up_ohm_max=pull_up.get("max"),
        sink_ampere=document.get("sink_ampere"),
        part=document.get("part"),
        part_ohm=document.get("part_ohm"),
        asks=document.get("asks"),
    )


def _entry(document: dict[str, Any] | None) -> BootLoaderEntry | None:
    if document is None:
        return None
    numbers = (document.get("address"), document.get("value"))
    return BootLoaderEntry(document["kind"], *numbers, document["source"])


def _outline(document: dict[str, Any] | None) -> BoardOutline | None:
    if document is None:
        return None
    return BoardOutline(**document | {"rows": tuple(document["rows"])})


def _profile(document: dict[str, Any], path: str | None) -> Profile:
    levels, output_low = _levels(document["input_volts"]), document.get("output_low", {})
    as_given = ("name", "title", "chip", "family", "port", "supply_volts")
    whole = ("clock_hz", "flash_bytes", "ram_bytes", "boot_loader_bytes")
    plain: dict[str, Any] = {field: document[field] for field in as_given}
    plain |= {field: int(document[field]) for field in whole}  # JSON may write 16000000.0
    return Profile(
        **plain,
        proof=proof_of(document["name"], document["port"], is_own=path is not None),
        datasheet=Datasheet(**document["datasheet"]),
        pull_up_ohm_min=document["pull_up_ohm"]["min"],
        pull_up_ohm_max=document["pull_up_ohm"]["max"],
        input_low_volts=levels.low_max,
        input_high_volts=levels.high_min,
        input_low_per_volt=levels.low_per_volt,
        input_high_per_volt=levels.high_per_volt,
        pin_farad=document.get("pin_farad", PLANNED_PIN_FARAD),
        output_low_ohm=output_low.get("ohm", PLANNED_OUTPUT_LOW_OHM),
        sink_ampere=output_low.get("pin_ampere"),
        total_sink_ampere=output_low.get("total_ampere"),
        drive_ampere=output_low.get("drive_ampere"),
        supply=_supply(document),
        clock_volts=document.get("clock_volts"),
        sources=tuple(document["sources"].items()),
        pins=tuple(_pin(pin) for pin in document["pins"]),
        edges=tuple(Edge(edge["side"], tuple(edge["pins"])) for edge in document.get("edges", [])),
        outline=_outline(document.get("outline_mm")),
        around=tuple(Around(**part) for part in document.get("around", [])),
        boot_loader_entry=_entry(document.get("boot_loader_entry")),
        boot_loader_speaks=document.get("boot_loader_speaks"),
        path=path,
    )
