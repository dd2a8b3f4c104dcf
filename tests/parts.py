"""How a run's tests are handed out to its workers: one by one if they take long, or many at once.

To hand out a test and to hear of it takes longer than most tests do; and what a module makes for
its tests, each worker makes that has one of them. Tests are known by their names alone: xdist's own
groups are marks that it writes into a test's name, which pytest 9.2 does not let it do.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cached_property

from xdist.scheduler import LoadScopeScheduling

BY_ONE_WORKER = ("tests/browser/", "tests/packaging/test_wheel.py")
"""What a browser is started for, or the wheel made: all of each is handed out at once."""

BY_CASE = ("tests/examples/test_every_key.py", "tests/firmware/test_engine_and_oracle.py")
"""Files whose tests of one case are handed out at once: a keyboard is built and plugged in for it.

It stands in brackets behind their names.
"""

MANY = 30
"""Tests of one file that are handed out at once: seconds, for the slowest of them."""


class InParts(LoadScopeScheduling):
    """Hands out tests in the order of the run, those that belong together to one worker."""

    one_by_one: tuple[str, ...] = ()
    """What the names of files begin with whose tests are handed out alone."""

    def _split_scope(self, nodeid: str) -> str:
        return self._parts[nodeid]

    @cached_property
    def _parts(self) -> dict[str, str]:
        met: Counter[str] = Counter()
        return {nodeid: self._part_of(nodeid, met) for nodeid in self.collection or ()}

    def _part_of(self, nodeid: str, met: Counter[str]) -> str:
        file, _, test = nodeid.partition("::")
        for together in BY_ONE_WORKER:
            if file.startswith(together):
                return together
        if file in BY_CASE and "[" in test:
            return f"{file} {case_of(test)}"
        if file.startswith(self.one_by_one):
            return nodeid
        met[file] += 1
        return f"{file} {(met[file] - 1) // MANY}"


def case_of(test: str) -> str:
    """Return what stands in brackets in a test's name, but for a number at its end."""
    return re.sub(r"-\d+$", "", test[test.index("[") + 1 : -1])
