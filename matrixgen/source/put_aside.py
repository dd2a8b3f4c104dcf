"""Where something stands in a statement that could not be read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.text import Span

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter


def span_in(reporter: Reporter, mistake: Mistake, place: int, length: int) -> Span:
    """Return the stretch that begins at a place of what was put aside."""
    before = mistake.dropped[:place]
    line = mistake.first_line + before.count("\n")
    return Span.in_line(reporter.path, line, place - before.rfind("\n"), length)
