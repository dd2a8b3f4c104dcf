"""A part of what `every_turn.py` does at length: turns that are left out change nothing."""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.avr.conftest import BUILDS
from tests.emulators.avr.every_turn import first_difference

CHANGES = 60


@pytest.mark.parametrize(("chip", "kind"), BUILDS)
def test_reports_and_cycles_are_the_same_with_and_without_the_turns_that_are_left_out(
    chip: str, kind: CompilerKind
) -> None:
    number, left_out = first_difference(chip, kind, CHANGES)
    assert number is None
    assert left_out > 1000
