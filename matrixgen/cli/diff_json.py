"""What changed, as `templates/diff.schema.json` describes it."""

from __future__ import annotations

from typing import Any

from matrixgen.compare import Change, Comparison
from matrixgen.jobs.examine import Examined

SCHEMA_ID = "urn:matrixgen:diff:1"


def as_json(
    found: Comparison, old: tuple[str, Examined], new: tuple[str, Examined]
) -> dict[str, Any]:
    """Return a comparison of two files, each with the word that it was asked for by."""
    return {
        "schema": SCHEMA_ID,
        "old": old[0],
        "new": new[0],
        "findings": {"old": _findings(old[1]), "new": _findings(new[1])},
        "kind": found.kind,
        "headline": found.headline,
        "needs_image": any(change.needs_image for change in found.changes),
        "changes": [_change(change) for change in found.changes],
        "bench": [step.text for step in found.steps],
    }


def _findings(side: Examined) -> dict[str, Any]:
    """Return what a check finds in a side: how many, and what is missing from it."""
    errors = len(side.errors)
    warnings = len(side.findings) - errors
    return {"errors": errors, "warnings": warnings, "missing": list(side.missing)}


def _change(change: Change) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "slug": change.slug,
        "text": change.text,
        "keys": list(change.keys),
        "layer": change.layer,
        "old": change.old,
        "new": change.new,
        "is_guess": change.is_guess,
        "needs_image": change.needs_image,
    }
