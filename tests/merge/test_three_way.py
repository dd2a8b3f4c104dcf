"""An order of names from two sides: every order of three names, and of two that both added."""

from __future__ import annotations

from itertools import permutations, product

import pytest

from matrixgen.merge.three_way import in_order

BASE = (("a",), ("b",), ("c",))
ORDERS = list(permutations(BASE))
X, Y = ("x",), ("y",)


def expected(ours, theirs, prefer):
    """The order that both agree with, and whether they do not."""
    if theirs == BASE or ours == theirs:
        return ours, False
    if ours == BASE:
        return theirs, False
    return (ours if prefer == "ours" else theirs), True


@pytest.mark.parametrize("prefer", ["ours", "theirs"])
@pytest.mark.parametrize(("ours", "theirs"), list(product(ORDERS, ORDERS)))
def test_the_side_that_moved_something_has_the_order_and_two_that_did_disagree(
    ours, theirs, prefer
):
    found = in_order((BASE, ours, theirs), BASE, prefer, strict=True)
    ids, disagree = expected(ours, theirs, prefer)
    assert found.ids == ids
    moved = {one for one, two in zip(ours, theirs, strict=True) if one != two}
    assert set(found.clashes) == (moved if disagree else set())
    assert in_order((BASE, ours, theirs), BASE, prefer, strict=False).clashes == ()


@pytest.mark.parametrize("prefer", ["ours", "theirs"])
@pytest.mark.parametrize("moved", [0, 1])
def test_an_order_that_one_side_changed_is_kept_where_the_other_added_something(moved, prefer):
    """What was added stands after what it stood after."""
    sides = [(*BASE, X), (*BASE, X)]
    sides[moved] = (BASE[2], *BASE[:2])
    found = in_order((BASE, *sides), (*BASE, X), prefer, strict=True)
    assert found.clashes == ()
    assert tuple(one for one in found.ids if one != X) == sides[moved]
    assert found.ids.index(X) == found.ids.index(BASE[2]) + 1


@pytest.mark.parametrize("prefer", ["ours", "theirs"])
@pytest.mark.parametrize("at", range(4))
def test_what_both_added_in_two_orders_is_a_disagreement(at, prefer):
    ours, theirs = ((*BASE[:at], *new, *BASE[at:]) for new in ((X, Y), (Y, X)))
    found = in_order((BASE, ours, theirs), (*BASE, X, Y), prefer, strict=True)
    assert found.ids == (ours if prefer == "ours" else theirs)
    assert set(found.clashes) == {X, Y}
