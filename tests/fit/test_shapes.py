"""Sizes of matrices: which ones have fewer lines, and why a size does not hold the keys."""

from __future__ import annotations

import pytest

from matrixgen.fit.expanders import with_expanders
from matrixgen.fit.shapes import smaller_sizes, why_not


@pytest.mark.parametrize("keys", [1, 2, 7, 12, 46, 61, 104])
@pytest.mark.parametrize("most", [3, 14, 18, 27])
def test_smaller_sizes_are_all_that_hold_the_keys_and_could_do_with_no_line_less(keys, most):
    everything = ((rows, columns) for rows in range(1, keys + 1) for columns in range(1, keys + 1))
    tight = {
        (r, c)
        for r, c in everything
        if r * c >= keys and (r - 1) * c < keys and r * (c - 1) < keys and r + c < most
    }
    assert set(smaller_sizes(keys, most)) == tight
    sums = list(map(sum, smaller_sizes(keys, most)))
    assert sums == sorted(sums, reverse=True)


def test_a_size_that_does_not_hold_the_keys_is_told_what_would():
    assert why_not(4, 12, 46) is None
    assert why_not(4, 11, 46) == (
        "4 rows and 11 columns hold 44 keys, and the plate has 46",
        "4 rows need 12 columns, 11 columns need 5 rows",
    )
    assert why_not(1, 9, 10) == (
        "1 row and 9 columns hold 9 keys, and the plate has 10",
        "1 row needs 10 columns, 9 columns need 2 rows",
    )
    assert why_not(50, 2, 46) == (
        "50 rows are more than the plate has keys: 46",
        "each needs at least one key",
    )


@pytest.mark.parametrize("keys", [1, 12, 46, 104, 200])
def test_a_matrix_with_a_helper_holds_the_keys_and_counts_its_pins(keys):
    expander, register = with_expanders(keys)
    for matrix, lines, own in ((expander, 16, 2), (register, 8, 3)):
        rows, columns = matrix.size
        assert rows * columns >= keys
        assert rows <= lines * matrix.chips
        assert matrix.controller_lines == columns + own
