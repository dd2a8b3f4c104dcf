"""Minutes of a processor that a run's tests took, those of their programs among them, by folder.

They are printed at the end of a run that took more than one. Clocks on the wall tell of whatever
else a computer does; these hardly do. What a worker needs to find the tests is not among them.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Generator

import pytest

PROPERTY = "processor_s"


def processor_s() -> float:
    """Return the seconds of a processor that this process and its ended children have taken."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def folder_of(nodeid: str) -> str:
    """Return the folder of `tests` that a test is in, or its file."""
    return nodeid.split("::")[0].removeprefix("tests/").split("/")[0]


class Spent:
    """Measures in each worker, and adds up in the process that prints."""

    def __init__(self) -> None:
        self.last: float | None = None
        self.by_folder: Counter[str] = Counter()

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_setup(self) -> None:
        if self.last is None:
            self.last = processor_s()

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_makereport(self) -> Generator[None]:
        made = yield
        now = processor_s()
        made.get_result().user_properties.append((PROPERTY, now - (self.last or now)))
        self.last = now

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.by_folder[folder_of(report.nodeid)] += dict(report.user_properties).get(PROPERTY, 0)

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        if self.by_folder.total() > 60:
            terminalreporter.section("minutes of a processor")
            for folder, seconds in [("all", self.by_folder.total()), *self.by_folder.most_common()]:
                terminalreporter.line(f"{seconds / 60:6.2f} {folder}")
