"""Compilers and chips take turns over tests: one of each test's images is tried, and each is."""

from __future__ import annotations

from collections import Counter

from tests.turns import CHIPS, KINDS, chosen, group_of


def test_tests_that_differ_in_the_compiler_alone_are_one_group() -> None:
    one, other = "test_a.py::test_b[rp2040-gcc-1200]", "test_a.py::test_b[rp2040-clang-1200]"
    assert group_of(one, KINDS) == group_of(other, KINDS)
    assert group_of("test_a.py::test_b[gcc]", KINDS) == group_of("test_a.py::test_b[clang]", KINDS)
    names = (one, one.replace("1200", "9600"), "a::b[gcc]")
    assert len({group_of(name, KINDS) for name in names}) == 3


def test_avr_chips_are_one_group_where_they_take_turns_and_the_rp2040_is_another() -> None:
    names = [f"a::b[{chip}-gcc-1]" for chip in ("atmega32u4", "at90usb162", "rp2040")]
    assert len({group_of(name, KINDS) for name in names}) == 3
    assert len({group_of(name, KINDS | CHIPS) for name in names}) == 2


def test_which_one_is_tried_is_not_always_the_same_and_never_another() -> None:
    names = [f"test_{number}" for number in range(400)]
    tried = Counter(chosen(name, 2) for name in names)
    assert set(tried) == {0, 1} and min(tried.values()) > 100
    assert [chosen(name, 2) for name in reversed(names)] == [chosen(name, 2) for name in names][
        ::-1
    ]
