"""Where looking for every route would take too long, the sheet says how many wires it is about."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.emit.sheet import page, sheet_of
from matrixgen.jobs.press import press_data_of
from matrixgen.routing import back_of
from tests.routing.plates import random_keyboard


@pytest.mark.parametrize("pieces", [0, 10**6])
def test_wires_whose_routes_were_not_looked_for_are_counted(pieces, monkeypatch):
    keyboard = random_keyboard(Random(7))
    monkeypatch.setitem(
        sheet_of.__globals__,
        "back_of",
        lambda keyboard, **more: back_of(keyboard, pieces, **more),
    )
    text = page(sheet_of(keyboard, "pad.keys", press_data_of(keyboard, "pad.keys"))).decode()
    count = len(back_of(keyboard, pieces, apart=True).left_out)
    assert (f"not all routes of {count} wire" in text) == (pieces == 0)
    assert ("were looked for" in text) == (pieces == 0)
