"""Tests of which the suite runs a few cases, evenly spread; the long run runs them all.

`@pytest.mark.few(12)` is for cases of one kind, one of which finds nearly all that the others find:
seeds, examples, broken files. Which they are hangs on how many there are, and on nothing else.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import TYPE_CHECKING

from tests.amounts import some

if TYPE_CHECKING:
    import pytest

MARK = "few"


def left_out(items: Iterable[pytest.Item]) -> set[pytest.Item]:
    """Return the cases that others of their test stand for."""
    cases: dict[str, list[pytest.Item]] = defaultdict(list)
    few: dict[str, int] = {}
    for item in items:
        if mark := item.get_closest_marker(MARK):
            test = item.nodeid.split("[")[0]
            cases[test].append(item)
            (few[test],) = mark.args
    kept = {item for test, all_of_it in cases.items() for item in some(all_of_it, few[test])}
    return {item for all_of_it in cases.values() for item in all_of_it} - kept
