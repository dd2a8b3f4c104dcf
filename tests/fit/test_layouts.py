"""Layouts: a matrix each, never worse than the plate's own rows, the same every time."""

from __future__ import annotations

from itertools import permutations
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from matrixgen.fit import search
from matrixgen.fit.beginnings import as_drawn, beginnings
from matrixgen.fit.layout import Layout
from matrixgen.fit.order import best_order, cost
from matrixgen.fit.plan import Plan
from matrixgen.fit.search import lay_out
from matrixgen.fit.shapes import Fitting
from tests.examples.shipped import NAMES, example
from tests.fit.plates import UNIT, drawn_lines, is_matrix, plate, scattered

lines = st.lists(
    st.tuples(st.sampled_from([0, 0.25, 0.5, 0.75, 1.25]), st.integers(1, 7)),
    min_size=1,
    max_size=4,
)


def laid_out_briefly(points, rows, columns, drawn):
    """A layout after short walks: what holds after any holds after these."""
    with patch.object(search, "STAGES", search.STAGES[:1]), patch.object(search, "MOST_TIMES", 1):
        return lay_out(Plan(tuple(points)), rows, columns, drawn=drawn)


@settings(max_examples=60)
@given(lines=lines, data=st.data())
def test_every_size_that_holds_the_keys_is_laid_out_as_a_matrix(lines, data):
    points = plate(*lines)
    keys = len(points)
    rows = data.draw(st.integers(1, keys))
    columns = data.draw(st.integers(-(-keys // rows), keys))
    layout = laid_out_briefly(points, rows, columns, drawn_lines(*lines))
    assert layout is not None
    assert is_matrix(layout, keys, rows, columns)


@pytest.mark.parametrize(("rows", "columns"), [(0, 4), (2, 2), (1, 4), (6, 6), (5, 6)])
def test_no_other_size_is(rows, columns):
    assert lay_out(Plan(tuple(plate((0, 5)))), rows, columns) is None


@settings(max_examples=50)
@given(lines=lines)
def test_no_more_wire_than_the_lines_as_drawn_with_columns_from_left_to_right(lines):
    drawn, points = drawn_lines(*lines), plate(*lines)
    rows, columns = len(drawn), max(map(len, drawn))
    plain = as_drawn(Plan(tuple(points)), rows, columns, drawn)
    layout = laid_out_briefly(points, rows, columns, drawn)
    assert plain and layout
    assert layout.run_mm <= plain.run_mm + 1e-3


@pytest.mark.few(5)
@pytest.mark.parametrize("name", NAMES)
def test_nor_on_any_example(name):
    fitting = Fitting(example(name).keyboard)
    plain = as_drawn(fitting.plan, *fitting.drawn_size, fitting.drawn)
    layout = lay_out(fitting.plan, *fitting.drawn_size, drawn=fitting.drawn)
    assert plain and layout
    assert is_matrix(layout, len(fitting.names), *fitting.drawn_size)
    assert layout.run_mm <= plain.run_mm + 1e-3


def test_the_same_plate_is_laid_out_in_the_same_way():
    points = tuple(scattered(3, 24))
    assert lay_out(Plan(points), 5, 5) == lay_out(Plan(points), 5, 5)


def test_a_hop_of_one_unit_needs_no_wire_and_a_longer_one_is_a_jumper():
    plan = Plan(((0.0, 0.0), (UNIT, 0.0), (UNIT * 2.25, 0.0)))
    layout = Layout(plan, ((0, 1, 2),), ((0,), (1,), (2,)))
    assert (layout.jumpers, layout.run_mm) == (1, pytest.approx(1.25 * UNIT))
    assert layout.metres == pytest.approx(1.25 * UNIT / 1000 + 4 * 0.2)


def test_every_hop_of_a_column_is_wire():
    plan = Plan(((0.0, 0.0), (0.0, UNIT)))
    layout = Layout(plan, ((0,), (1,)), ((0, 1),))
    assert (layout.jumpers, layout.run_mm) == (0, pytest.approx(UNIT))


@pytest.mark.parametrize("seed", range(40))
def test_the_best_order_of_a_wire_is_that_of_all_orders(seed):
    plan = Plan(tuple(scattered(seed, 6)))
    hops = plan.row_hops if seed % 2 else plan.distances
    least = min(cost(order, hops) for order in permutations(range(6)))
    assert cost(best_order(range(6), hops), hops) == pytest.approx(least)


@pytest.mark.parametrize("seed", range(20))
def test_a_long_wire_is_never_made_longer(seed):
    plan = Plan(tuple(scattered(seed, 12)))
    order = best_order(range(12), plan.distances)
    assert sorted(order) == list(range(12))
    assert cost(order, plan.distances) <= cost(range(12), plan.distances) + 1e-9


@settings(max_examples=60, deadline=None)
@given(lines=lines, data=st.data())
def test_every_size_that_holds_the_keys_has_beginnings_and_each_is_such_a_matrix(lines, data):
    points, drawn = plate(*lines), drawn_lines(*lines)
    rows = data.draw(st.integers(1, len(points)))
    columns = data.draw(st.integers(-(-len(points) // rows), len(points)))
    found = beginnings(Plan(tuple(points)), rows, columns, drawn)
    assert found
    assert all(is_matrix(layout, len(points), rows, columns) for layout in found)
