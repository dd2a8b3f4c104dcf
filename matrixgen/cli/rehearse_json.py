"""What happens in a rehearsal as JSON, for scripts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from matrixgen.rehearse.happening import (
    Appeared,
    BootLoaderStarts,
    Does,
    Ends,
    Happening,
    KeyMoved,
    LayersOn,
    LightsLit,
    Lingers,
    LockTold,
    Reported,
    TextShown,
    Undecided,
    Waits,
)
from matrixgen.rehearse.report_words import Report

SCHEMA_ID = "urn:matrixgen:rehearse:2"

NAMES: dict[type[Happening], str] = {
    KeyMoved: "moved",
    LockTold: "computer says",
    LightsLit: "lights",
    Undecided: "undecided",
    Waits: "waits",
    Does: "does",
    LayersOn: "layers",
    Lingers: "lingers",
    Reported: "report",
    Appeared: "writes",
    TextShown: "text",
    BootLoaderStarts: "boot-loader",
    Ends: "end",
}
"""Each kind of thing by its word in `what`."""


def as_json(file: str, found: Sequence[Happening]) -> dict[str, Any]:
    """Return a rehearsal, each thing with its milliseconds in `at_ms`."""
    return {"schema": SCHEMA_ID, "file": file, "happenings": [_happening(one) for one in found]}


def _happening(one: Happening) -> dict[str, Any]:
    fields = {name: getattr(one, name) for name in one.__match_args__ if name != "at_ms"}
    data = {"at_ms": one.at_ms, "what": NAMES[type(one)]}
    for name, value in fields.items():
        data |= _report(value) if isinstance(value, Report) else {name: value}
    return data


def _report(report: Report) -> dict[str, Any]:
    moved = {"moved": list(report.moved)} if report.of == "pointer" else {}
    return {"of": report.of, "down": list(report.down), **moved, "words": report.words}
