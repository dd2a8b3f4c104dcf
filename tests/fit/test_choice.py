"""Which matrix is taken: none that another is better than, and cheap pins before dear ones."""

from __future__ import annotations

import pytest

from matrixgen.boards.pin import NOTHING_COST
from matrixgen.fit.choice import choose
from matrixgen.fit.shapes import Shape, better_than


class Needing:
    """A layout of which only what it needs is asked."""

    def __init__(self, rows, columns, jumpers, metres):
        self.rows, self.columns = (0,) * rows, (0,) * columns
        self.lines, self.jumpers, self.metres = rows + columns, jumpers, metres


def shape(*needs):
    return Shape("folded", Needing(*needs))


AS_IS = shape(6, 21, 30, 8.25)
WORSE, BETTER = shape(5, 21, 34, 8.78), shape(6, 18, 31, 8.36)
SMALL = shape(8, 13, 54, 8.79)
ALL = [AS_IS, WORSE, BETTER, SMALL]
DEAR = NOTHING_COST + 2


@pytest.mark.parametrize(
    ("pins", "costs", "taken", "on_free_pins"),
    [
        (30, {}, AS_IS, AS_IS),
        (26, {}, BETTER, BETTER),
        (23, {}, SMALL, SMALL),
        (20, {}, None, None),
        (30, {AS_IS: NOTHING_COST}, AS_IS, BETTER),
        (30, {AS_IS: DEAR}, BETTER, BETTER),
        (30, {AS_IS: DEAR, BETTER: NOTHING_COST}, SMALL, SMALL),
        (30, {AS_IS: DEAR, BETTER: DEAR, SMALL: NOTHING_COST}, SMALL, None),
        (26, {BETTER: DEAR, SMALL: DEAR}, BETTER, None),
    ],
)
def test_it_is_the_first_one_whose_pins_ask_for_least(pins, costs, taken, on_free_pins):
    by_size = {one.size: cost for one, cost in costs.items()}
    choice = choose(ALL, lambda size: by_size.get(size, 0) if sum(size) <= pins else None)
    assert (choice and choice.shape, choice and choice.on_free_pins) == (taken, on_free_pins)


def test_a_matrix_as_it_is_that_is_worse_than_another_makes_room_for_that_one():
    as_wired = shape(4, 10, 4, 3.44)
    other, better = shape(4, 9, 5, 3.42), shape(7, 5, 1, 3.44)
    choice = choose([as_wired, other, better], lambda size: 0)
    assert choice.shape is better
    assert choice.cost_as_is == 1


def test_the_table_tells_which_is_worse_than_which():
    assert [better_than(one, ALL) for one in ALL] == [None, BETTER, None, None]
    same = shape(6, 18, 31, 8.36)
    assert better_than(same, [BETTER]) is None
