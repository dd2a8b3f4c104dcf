"""Wire and jumpers against the proven optimum: an integer program that scipy solves (HiGHS)."""

from __future__ import annotations

import pytest

from matrixgen.fit.plan import Plan
from matrixgen.fit.search import lay_out
from tests.amounts import IS_LONG
from tests.fit.optimum import JUMPER_MM, least_cost
from tests.fit.plates import is_matrix, plate, scattered

WITHIN = 1.05

CASES = {
    "a block": (plate((0, 4), (0, 4), (0, 4)), 3, 4),
    "a block, turned": (plate((0, 4), (0, 4), (0, 4)), 4, 3),
    "two staggered lines folded": (plate((0, 6), (0.25, 6)), 4, 3),
    "staggered": (plate((0, 4), (0.25, 4), (0.75, 3)), 3, 4),
    "one line in two rows": (plate((0, 10)), 2, 5),
    "five and five in four rows": (plate((0, 5), (0.5, 5)), 4, 3),
    "two hands": (
        plate((0, 3), (0.25, 3)) + [(x + 120, y) for x, y in plate((0, 3), (0, 3))],
        4,
        3,
    ),
    **{f"scattered {n}": (scattered(n, 7 + n % 5), 3, 4) for n in range(6)},
}
LONG_CASES = {
    "two long lines folded": (plate((0, 6), (0, 6)), 3, 4),
    "one line in three rows": (plate((0, 10)), 3, 4),
}
"""Those that the integer program takes seconds for."""

TRIED = CASES | LONG_CASES if IS_LONG else CASES


@pytest.mark.few(4)
@pytest.mark.parametrize(("points", "rows", "columns"), TRIED.values(), ids=TRIED)
def test_wire_and_jumpers_cost_within_five_per_cent_of_the_least_there_can_be(
    points, rows, columns
):
    layout = lay_out(Plan(tuple(points)), rows, columns)
    assert layout is not None
    assert is_matrix(layout, len(points), rows, columns)
    least = least_cost(points, rows, columns)
    assert least - 0.01 <= layout.run_mm + JUMPER_MM * layout.jumpers <= least * WITHIN


def test_there_are_at_least_ten_of_them():
    assert len(CASES) >= 10
