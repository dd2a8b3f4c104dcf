"""What a command with `--json` says besides its report, kept for where there is no report."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matrixgen.failure import Failure
    from matrixgen.model import Diagnostic


class Said:
    """What was said so far: findings and failures, and whether a report was."""

    def __init__(self) -> None:
        self.findings: list[Diagnostic] = []
        self.failures: list[Failure] = []
        self.has_report = False


_NOW: ContextVar[Said | None] = ContextVar("said", default=None)


@contextmanager
def kept() -> Iterator[Said]:
    """Keep what is said from here on."""
    said = Said()
    token = _NOW.set(said)
    try:
        yield said
    finally:
        _NOW.reset(token)


def note_findings(findings: Iterable[Diagnostic]) -> None:
    """Remember findings that are printed for people."""
    if said := _NOW.get():
        said.findings += findings


def note_failure(failure: Failure) -> None:
    """Remember what was wrong with the command line."""
    if said := _NOW.get():
        said.failures.append(failure)


def note_report() -> None:
    """Remember that the report itself was printed."""
    if said := _NOW.get():
        said.has_report = True
