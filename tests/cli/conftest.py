"""Layouts that are searched for once."""

from __future__ import annotations

import functools

import pytest

from matrixgen.fit import search, shapes
from matrixgen.fit.plan import Plan
from matrixgen.jobs import fit


@functools.cache
def _laid_out(points, rows, columns, drawn, stages):
    return search.lay_out(Plan(points), rows, columns, drawn=drawn)


@pytest.fixture
def one_search_a_plate(monkeypatch) -> None:
    """Search for a plate's layout once, for all tests that fit it: it is the same each time.

    That it is, `tests/fit/test_layouts.py` asks of the search itself.
    """

    def remembered(plan, rows, columns, *, drawn=(), progress=None):
        return _laid_out(plan.points, rows, columns, tuple(map(tuple, drawn)), search.STAGES)

    monkeypatch.setattr(fit, "lay_out", remembered)
    monkeypatch.setattr(shapes, "lay_out", remembered)
