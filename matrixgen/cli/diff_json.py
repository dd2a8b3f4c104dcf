"""What changed, as `templates/diff.schema.json` describes it."""

from __future__ import annotations

from typing import Any

from matrixgen.compare import Change, Comparison

SCHEMA_ID = "urn:matrixgen:diff:1"


def as_json(old: str, new: str, found: Comparison) -> dict[str, Any]:
    """Return a comparison of two files, which are given as they were asked for."""
    return {
        "schema": SCHEMA_ID,
        "old": old,
        "new": new,
        "kind": found.kind,
        "headline": found.headline,
        "needs_image": any(change.needs_image for change in found.changes),
        "changes": [_change(change) for change in found.changes],
        "bench": [step.text for step in found.steps],
    }


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
