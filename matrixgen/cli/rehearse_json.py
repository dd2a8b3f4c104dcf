"""What happens in a rehearsal as JSON, for scripts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from matrixgen.rehearse.happening import Happening
from matrixgen.rehearse.report_words import Report

SCHEMA_ID = "urn:matrixgen:rehearse:2"


def as_json(file: str, found: Sequence[Happening]) -> dict[str, Any]:
    """Return a rehearsal, each thing with its milliseconds in `at_ms`."""
    return {"schema": SCHEMA_ID, "file": file, "happenings": [_happening(one) for one in found]}


def _happening(one: Happening) -> dict[str, Any]:
    data: dict[str, Any] = {"at_ms": one.at_ms, "what": one.what}
    for name in (name for name in one.kinds if name != "at_ms"):
        value = getattr(one, name)
        data |= _report(value) if isinstance(value, Report) else {name: value}
    return data


def _report(report: Report) -> dict[str, Any]:
    moved = {"moved": list(report.moved)} if report.of == "pointer" else {}
    return {"of": report.of, "down": list(report.down), **moved, "words": report.words}
