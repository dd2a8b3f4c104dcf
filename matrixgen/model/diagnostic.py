"""What a user is told about a mistake. Rules return these; nothing below the commands prints."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from matrixgen.model.record import record
from matrixgen.model.span import Span


class Severity(Enum):
    """How bad a finding is: an error stops a build, a warning does not."""

    ERROR = "error"
    WARNING = "warning"


@record
class Problem:
    """One kind of mistake: its slug names the bad pattern, its page explains it.

    `page` is Markdown with the five headings of every rule's page: what it does, why it matters,
    example, do instead, reference.
    """

    slug: str
    severity: Severity
    page: str

    @property
    def title(self) -> str:
        """The page's first line, without its mark of a heading."""
        return self.page.strip().splitlines()[0].lstrip("# ").strip()

    def at(
        self,
        span: Span,
        message: str,
        *,
        help: str | None = None,
        notes: Iterable[Note] = (),
    ) -> Diagnostic:
        """Return a finding of this kind: what is wrong in `message`, the cure in `help`."""
        return Diagnostic(self.slug, self.severity, span, message, help, tuple(notes))


@record
class Note:
    """A fact that goes with a finding, and the place it speaks of, if it has one."""

    text: str
    span: Span | None = None


@record
class Diagnostic:
    """One finding: path, line and caret come from `span`."""

    slug: str
    severity: Severity
    span: Span
    message: str
    help: str | None = None
    notes: tuple[Note, ...] = ()

    @property
    def is_error(self) -> bool:
        """Whether this finding stops a build."""
        return self.severity is Severity.ERROR


def in_file_order(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """Return the findings as a reader meets them: by file, line and column, each one once."""
    unique = dict.fromkeys(diagnostics)
    return sorted(unique, key=lambda found: (found.span, found.slug, found.message))
