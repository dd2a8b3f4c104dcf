"""Findings as JSON, for scripts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from matrixgen.jobs.examine import Examined
from matrixgen.model import Diagnostic, Fix, Span
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:check:3"

PLACE = ("path", "line", "column", "end_line", "end_column")
"""What is told of a place."""


def as_json(examined: Sequence[Examined], *, tell_coverage: bool = False) -> dict[str, Any]:
    """Return a report: the files looked at, and every finding in file order."""
    findings = [found for one in examined for found in one.findings]
    errors = sum(found.is_error for found in findings)
    return {
        "schema": SCHEMA_ID,
        "files": [one.path for one in examined],
        "unfinished": {one.path: list(one.missing) for one in examined if one.missing},
        "without_firmware": {
            one.path: [mounted.profile.name for mounted in one.only_planned]
            for one in examined
            if one.only_planned
        },
        "allowed": {one.path: len(one.allowed) for one in examined if one.allowed},
        **({"unreached": _unreached(examined)} if tell_coverage else {}),
        "errors": errors,
        "warnings": len(findings) - errors,
        "findings": [finding_json(found) for found in findings],
    }


def _unreached(examined: Sequence[Examined]) -> dict[str, Any]:
    from matrixgen.cli.coverage import unreached  # few ask for it

    return unreached(examined)


def finding_json(found: Diagnostic) -> dict[str, Any]:
    """Return a finding, with the places of its notes and its fix."""
    return {
        "slug": found.slug,
        "severity": found.severity.value,
        **_place(found.span),
        "message": found.message,
        "helps": list(found.helps),
        "notes": [
            {"text": note.text, **(_place(note.span) if note.span else {})} for note in found.notes
        ],
        "figure": list(found.figure),
        "fix": _fix(found.fix) if found.fix else None,
    }


def _fix(fix: Fix) -> dict[str, Any]:
    return {
        "says": fix.says,
        "certain": fix.is_certain,
        "edits": [{**_place(edit.span), "text": edit.text} for edit in fix.edits],
    }


def _place(span: Span) -> dict[str, Any]:
    return values_of(span, *PLACE)
