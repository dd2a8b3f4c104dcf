"""Documents that are data: reports and manifests by their schemas, tables by their rows."""

from __future__ import annotations

import csv
import functools
import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

from matrixgen.resources import resource


@functools.cache
def validator(form: str) -> Draft202012Validator:
    schema = json.loads((resource("templates") / f"{form}.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def form_of(report: Mapping[str, Any]) -> str:
    """Return the form's name, once the report is as the form's schema says."""
    found = re.fullmatch(r"urn:matrixgen:([a-z]+):[1-9][0-9]*", str(report["schema"]))
    assert found and next(iter(report)) == "schema" and "format" not in report
    assert validator(found[1]).schema["$id"] == report["schema"]
    validator(found[1]).validate(report)
    return found[1]


def report_of(text: str | bytes, form: str) -> dict[str, Any]:
    """Return a report, once it is of this form and as its schema says."""
    report: dict[str, Any] = json.loads(text)
    assert form_of(report) == form
    return report


@functools.cache
def rows_of(path: Path) -> tuple[dict[str, str], ...]:
    """Return the rows of a table with comments, each by the names of the columns."""
    with path.open(encoding="utf-8", newline="") as lines:
        return tuple(csv.DictReader(line for line in lines if not line.startswith("#")))
