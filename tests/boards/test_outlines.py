"""Boards' outlines and pads: against a table that others put together, and in themselves."""

from __future__ import annotations

from math import dist

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.boards.outline import PITCH_MM
from tests.boards.chip_facts import table

ROWS = {row["profile"]: row for row in table("outlines.csv")}
OUTLINED = [name for name in builtin_names() if builtin_profile(name).outline]
ALMOST_MM = 0.1
"""Half of what the table rounds, where it has a place from a drawing; the rest is about."""


@pytest.mark.parametrize("name", ROWS)
def test_a_board_is_as_large_as_the_table_says_and_its_rows_end_where_it_says(name):
    row, profile = ROWS[name], builtin_profile(name)
    outline = profile.outline
    assert outline is not None
    assert (outline.length, outline.width) == (float(row["length_mm"]), float(row["width_mm"]))
    for side, place in (("left", "left_row_mm"), ("right", "right_row_mm")):
        edge = next(one for one in profile.edges if one.side == side)
        assert len(edge.names) == int(row["pads_a_side"])
        first, last = (outline.pad(edge, number) for number in (0, len(edge.names) - 1))
        assert first[0] == last[0] == pytest.approx(float(row[place]) - outline.width / 2)
        assert first[1] == pytest.approx(float(row["first_pad_mm"]))
        assert last[1] == pytest.approx(float(row["last_pad_mm"]), abs=ALMOST_MM)


@pytest.mark.parametrize("name", OUTLINED)
def test_all_pads_lie_on_the_board_a_pitch_apart_at_least(name):
    profile = builtin_profile(name)
    outline = profile.outline
    pads = [outline.pad(edge, n) for edge in profile.edges for n in range(len(edge.names))]
    (left, _), (right, _), (_, far), _ = outline.corners
    assert all(left < x < right and 0 < y < far for x, y in pads)
    near = min(dist(one, two) for n, one in enumerate(pads) for two in pads[:n])
    assert near >= 0.9 * PITCH_MM


def test_every_board_with_edges_has_an_outline_and_no_bare_chip_has():
    boards = {name for name in builtin_names() if name.startswith(("board-", "stick-"))}
    boards |= {name for name in builtin_names() if name.endswith("-40pin")}
    assert set(OUTLINED) == boards >= set(ROWS)
