"""A point that a file leaves open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Protocol

from matrixgen.boards.mounted import Mounted
from matrixgen.model import Design, Diagnostic, Problem
from matrixgen.record import Record


class OpenPoint(Record):
    """What is not there yet, to follow `unfinished:`, and the finding that a build makes of it."""

    missing: str
    finding: Diagnostic


class Unfinished(Record):
    """A file that may be unfinished, on those of its controllers that are known."""

    design: Design
    mounted: Sequence[Mounted]


class OpenRule(Protocol):
    """What the file of such a rule holds: a problem, whose page is its docstring, and a look."""

    PROBLEM: Problem

    def look(self, draft: Unfinished, /) -> Iterator[OpenPoint]:
        """Yield what the file leaves open."""
        ...
