"""Compilers take turns over tests: one of each test's images is tried, and each compiler's is."""

from __future__ import annotations

from collections import Counter

from tests.turns import chosen, group_of


def test_tests_that_differ_in_the_compiler_alone_are_one_group() -> None:
    one, other = "test_a.py::test_b[rp2040-gcc-1200]", "test_a.py::test_b[rp2040-clang-1200]"
    assert group_of(one) == group_of(other)
    assert group_of("test_a.py::test_b[gcc]") == group_of("test_a.py::test_b[clang]")
    assert len({group_of(name) for name in (one, one.replace("1200", "9600"), "a::b[gcc]")}) == 3


def test_which_one_is_tried_is_not_always_the_same_and_never_another() -> None:
    names = [f"test_{number}" for number in range(400)]
    tried = Counter(chosen(name, 2) for name in names)
    assert set(tried) == {0, 1} and min(tried.values()) > 100
    assert [chosen(name, 2) for name in reversed(names)] == [chosen(name, 2) for name in names][
        ::-1
    ]
