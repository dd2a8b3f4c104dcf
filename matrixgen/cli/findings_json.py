"""Findings as JSON, for scripts."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from matrixgen.jobs.examine import Examined
from matrixgen.model import Diagnostic, Fix, Span

FORMAT = 2
"""Raised when a field changes its meaning or goes away; new fields do not count."""


def as_json(examined: Sequence[Examined], *, tell_coverage: bool = False) -> str:
    """Return a report as JSON text: the files looked at, and every finding in file order."""
    findings = [found for one in examined for found in one.findings]
    errors = sum(found.is_error for found in findings)
    report = {
        "format": FORMAT,
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
        "findings": [_finding(found) for found in findings],
    }
    return json.dumps(report, indent=2, ensure_ascii=True)


def _unreached(examined: Sequence[Examined]) -> dict[str, Any]:
    from matrixgen.cli.coverage import unreached  # few ask for it

    return unreached(examined)


def _finding(found: Diagnostic) -> dict[str, Any]:
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
    return {
        "path": span.path,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
    }
