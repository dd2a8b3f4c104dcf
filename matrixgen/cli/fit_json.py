"""What `fit` finds, as `templates/fit.schema.json` describes it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from matrixgen.fit.controllers import Candidate
from matrixgen.fit.expanders import ExpandedMatrix
from matrixgen.fit.layout import Layout
from matrixgen.fit.new_wiring import NewLine
from matrixgen.fit.shapes import Shape, Size, better_than
from matrixgen.jobs.fit import FitTables
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:fit:1"


def report_json(path: str, tables: FitTables) -> dict[str, Any]:
    """Return the tables."""
    return {
        "schema": SCHEMA_ID,
        "file": path,
        "keys": tables.keys,
        "matrices": [_matrix(one, tables.shapes) for one in tables.shapes],
        "not_built": [_expanded(one) for one in tables.expanded],
        "controllers": [_candidate(one) for one in tables.candidates],
    }


def wiring_json(
    path: str, keys: int, layout: Layout, lines: Sequence[NewLine], text: str
) -> dict[str, Any]:
    """Return a wiring: `text` is the block, or the whole file that has one already."""
    return {
        "schema": SCHEMA_ID,
        "file": path,
        "keys": keys,
        "wiring": {
            **_layout(layout),
            "lines": [
                {"axis": one.axis, "name": one.name, "pins": one.pins, "keys": one.keys}
                for one in lines
            ],
            "text": text,
        },
    }


def _matrix(shape: Shape, shapes: Sequence[Shape]) -> dict[str, Any]:
    better = better_than(shape, shapes)
    worse_than = _size(better.size) if better else None
    return {"origin": shape.origin, **_layout(shape.layout), "worse_than": worse_than}


def _layout(layout: Layout) -> dict[str, Any]:
    return {
        "rows": len(layout.rows),
        "columns": len(layout.columns),
        "pins": layout.lines,
        "diodes": len(layout.plan.points),
        "jumpers": layout.jumpers,
        "key_to_key_mm": round(layout.run_mm, 1),
        "wire_m": round(layout.metres, 3),
    }


def _expanded(one: ExpandedMatrix) -> dict[str, Any]:
    return {
        **values_of(one.expander, "part", "kind", "source"),
        "chips": one.chips,
        "rows": one.size[0],
        "columns": one.size[1],
        "pins": one.controller_lines,
    }


def _candidate(one: Candidate) -> dict[str, Any]:
    return {
        "controller": one.profile.name,
        "rows": one.size[0],
        "columns": one.size[1],
        "pins": one.lines,
        "usable": one.pins,
        "free": one.free,
        "spare": one.spare,
        "supply_volts": one.profile.supply_volts,
        "firmware": "builds" if one.profile.port else "counts pins only",
        "verdict": one.verdict,
        "on_free_pins": _size(one.on_free_pins),
        "obstacles": [{"slug": found.slug, "message": found.message} for found in one.obstacles],
    }


def _size(size: Size | None) -> dict[str, int] | None:
    return {"rows": size[0], "columns": size[1]} if size else None
