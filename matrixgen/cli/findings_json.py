"""Findings as JSON, for scripts."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from matrixgen.model import Diagnostic, Span

FORMAT = 1
"""Raised when a field changes its meaning or goes away; new fields do not count."""


def as_json(findings: Sequence[Diagnostic], files: Sequence[str]) -> str:
    """Return a report as JSON text: the files looked at, and every finding in file order."""
    errors = sum(found.is_error for found in findings)
    report = {
        "format": FORMAT,
        "files": list(files),
        "errors": errors,
        "warnings": len(findings) - errors,
        "findings": [_finding(found) for found in findings],
    }
    return json.dumps(report, indent=2, ensure_ascii=True)


def _finding(found: Diagnostic) -> dict[str, Any]:
    return {
        "slug": found.slug,
        "severity": found.severity.value,
        **_place(found.span),
        "message": found.message,
        "help": found.help,
        "notes": [
            {"text": note.text, **(_place(note.span) if note.span else {})} for note in found.notes
        ],
    }


def _place(span: Span) -> dict[str, Any]:
    return {
        "path": span.path,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
    }
