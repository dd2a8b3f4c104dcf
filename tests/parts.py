"""How a run's tests are handed out to its workers: one by one if they take long, or many at once.

To hand out a test and to hear of it takes longer than most tests do; and what a module makes for
its tests, each worker makes that has one of them.
"""

from __future__ import annotations

from collections import Counter
from functools import cached_property

from xdist.scheduler import LoadGroupScheduling

MANY = 30
"""Tests of one file that are handed out at once: seconds, for the slowest of them."""


class InParts(LoadGroupScheduling):
    """A group of `xdist_group` as a whole, and before all others; then in the order of the run."""

    one_by_one: tuple[str, ...] = ()
    """What the names of files begin with whose tests are handed out alone."""

    def _split_scope(self, nodeid: str) -> str:
        scope: str = super()._split_scope(nodeid)
        return self._parts[nodeid] if scope == nodeid else scope

    @cached_property
    def _parts(self) -> dict[str, str]:
        parts: dict[str, str] = {}
        met: Counter[str] = Counter()
        for nodeid in self.collection or ():
            file = nodeid.split("::")[0]
            is_alone = file.startswith(self.one_by_one)
            parts[nodeid] = nodeid if is_alone else f"{file} {met[file] // MANY}"
            met[file] += 1
        return parts
