"""What a command with `--json` says besides its report, kept for where there is no report."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from matrixgen.model import Diagnostic


class Complaint(NamedTuple):
    """What is wrong with a command line: a name for it, the text and its cures."""

    slug: str
    text: str
    helps: tuple[str, ...]


class Said:
    """What was said so far: findings and complaints, and whether a report was."""

    def __init__(self) -> None:
        self.findings: list[Diagnostic] = []
        self.complaints: list[Complaint] = []
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


def note_complaint(complaint: Complaint) -> None:
    """Remember what was wrong with the command line."""
    if said := _NOW.get():
        said.complaints.append(complaint)


def note_report() -> None:
    """Remember that the report itself was printed."""
    if said := _NOW.get():
        said.has_report = True
