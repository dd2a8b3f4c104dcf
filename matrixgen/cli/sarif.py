"""Findings as SARIF 2.1.0 (OASIS standard), which code hosts and editors read."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any
from urllib.parse import quote

import matrixgen
from matrixgen.model import Diagnostic, Fix, Problem, Span

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def as_sarif(findings: Sequence[Diagnostic], problems: Mapping[str, Problem]) -> str:
    """Return a report as SARIF text: every rule with its page, and every finding.

    Columns count Unicode code points, which SARIF calls by that name.
    """
    index = {slug: number for number, slug in enumerate(problems)}
    driver = {
        "name": "matrixgen",
        "version": matrixgen.__version__,
        "rules": [_rule(problem) for problem in problems.values()],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(found, index) for found in findings],
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, indent=2, ensure_ascii=True)


def _rule(problem: Problem) -> dict[str, Any]:
    return {
        "id": problem.slug,
        "shortDescription": {"text": problem.title},
        "help": {"text": problem.page.strip(), "markdown": problem.page.strip()},
        "defaultConfiguration": {"level": problem.severity.value},
    }


def _result(found: Diagnostic, index: Mapping[str, int]) -> dict[str, Any]:
    unplaced = [f"Note: {note.text}." for note in found.notes if note.span is None]
    cures = [f"Help: {help}." for help in found.helps]
    result: dict[str, Any] = {
        "ruleId": found.slug,
        "level": found.severity.value,
        "message": {"text": "\n".join([f"{found.message}.", *unplaced, *cures])},
        "locations": [_location(found.span)],
    }
    if found.slug in index:
        result["ruleIndex"] = index[found.slug]
    placed = [note for note in found.notes if note.span]
    if placed:
        result["relatedLocations"] = [
            {**_location(note.span), "message": {"text": note.text}} for note in placed if note.span
        ]
    if found.fix:
        result["fixes"] = [_fix(found.fix)]
    return result


def _fix(fix: Fix) -> dict[str, Any]:
    """Return a cure as SARIF section 3.55 has it; all its edits are of one file."""
    replacements = [
        {"deletedRegion": _region(edit.span), "insertedContent": {"text": edit.text}}
        for edit in fix.edits
    ]
    change = {
        "artifactLocation": {"uri": _uri(fix.edits[0].span.path)},
        "replacements": replacements,
    }
    return {"description": {"text": f"{fix.says}."}, "artifactChanges": [change]}


def _location(span: Span) -> dict[str, Any]:
    artifact = {"uri": _uri(span.path)}
    return {"physicalLocation": {"artifactLocation": artifact, "region": _region(span)}}


def _region(span: Span) -> dict[str, int]:
    return {
        "startLine": span.line,
        "startColumn": span.column,
        "endLine": span.end_line,
        "endColumn": span.end_column,
    }


def _uri(path: str) -> str:
    """Return a path as a URI: a relative one stays relative, as SARIF section 3.4.3 likes it."""
    found = Path(path)
    return found.as_uri() if found.is_absolute() else quote(found.as_posix(), errors="replace")
