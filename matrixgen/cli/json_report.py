"""JSON for scripts: each command's report, and one form for why there is none.

What a command prints with `--json` is an object that names its form in `schema`. The number at the
end is raised when a field changes its meaning or goes away; new fields do not count.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from typing import Any

from matrixgen.cli.complain import FINE
from matrixgen.cli.findings_json import PLACE, finding_json
from matrixgen.cli.said import Said, kept, note_report
from matrixgen.failure import Failure

FAILURE_ID = "urn:matrixgen:failure:1"
"""Names `templates/failure.schema.json`."""


def print_report(report: dict[str, Any]) -> None:
    """Print a command's report."""
    note_report()
    print(as_text(report))


def as_text(report: dict[str, Any]) -> str:
    """Return a report as JSON text."""
    return json.dumps(report, indent=2, ensure_ascii=True)


def run_with_json(command: str, job: Callable[[], int]) -> int:
    """Run a command that was asked for JSON: where it prints no report, print why.

    People read the same on standard error.
    """
    with kept() as said:
        status = job()
        sys.stdout.flush()
    if status != FINE and not said.has_report:
        print(as_text(failure(command, said)))
    return status


def failure(command: str, said: Said) -> dict[str, Any]:
    """Return why there is no report, as `templates/failure.schema.json` has it."""
    return {
        "schema": FAILURE_ID,
        "command": command,
        "findings": [
            *map(finding_json, said.findings),
            *map(_as_finding, said.failures),
        ],
    }


def _as_finding(failure: Failure) -> dict[str, Any]:
    """Return a failure with the fields of a finding that is at no place."""
    return {
        "slug": failure.slug,
        "severity": "error",
        **dict.fromkeys(PLACE),
        "message": failure.text,
        "helps": list(failure.helps),
        "notes": [],
        "figure": [],
        "fix": None,
    }
