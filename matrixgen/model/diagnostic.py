"""What a user reads about a mistake. Rules return these; nothing below the commands prints."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from matrixgen.model.text import Edit, Span
from matrixgen.record import Record


class Severity(Enum):
    """How bad a finding is: an error stops a build, a warning does not."""

    ERROR = "error"
    WARNING = "warning"


class Note(Record):
    """A fact that goes with a finding, and the place it speaks of, if it has one."""

    text: str
    span: Span | None = None


class Fix(Record):
    """A cure that a program can apply: what it does, in a few words, and the edits.

    `is_certain` where there is no other cure that the user may have meant: `check --fix` applies
    just those.
    """

    says: str
    edits: tuple[Edit, ...]
    is_certain: bool = True


class Problem(Record):
    """One kind of mistake: its slug names the bad pattern, its page explains it.

    `page` is Markdown with the five headings of every page: what it does, why it matters, example,
    do instead, reference.
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
        help: str | Iterable[str] | None = None,
        notes: Iterable[Note] = (),
        about: Iterable[str] = (),
        fix: Fix | None = None,
        figure: Iterable[str] = (),
    ) -> Diagnostic:
        """Return a finding of this kind: what is wrong in `message`, each cure in `help`.

        `about` has the names of the keys, pins, wires and layers that it speaks of. `figure` are
        the lines of a small drawing of letters.
        """
        return Diagnostic(
            slug=self.slug,
            severity=self.severity,
            span=span,
            message=message,
            helps=(help,) if isinstance(help, str) else tuple(help or ()),
            notes=tuple(notes),
            about=frozenset(about),
            fix=fix,
            figure=tuple(figure),
        )


class Diagnostic(Record, kw_only=True):
    """One finding: path, line and caret come from `span`; each of `helps` is a cure of its own."""

    slug: str
    severity: Severity
    span: Span
    message: str
    helps: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    about: frozenset[str] = frozenset()
    fix: Fix | None = None
    figure: tuple[str, ...] = ()

    @property
    def is_error(self) -> bool:
        """Whether this finding stops a build."""
        return self.severity is Severity.ERROR

    @property
    def said(self) -> tuple[str, str]:
        """What is said, wherever it is said: an edit may move what follows."""
        return self.slug, self.message


def in_file_order(diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
    """Return the findings as a reader meets them: by file, line and column, each one once."""
    unique = dict.fromkeys(diagnostics)
    return sorted(unique, key=lambda found: (found.span, found.slug, found.message))
