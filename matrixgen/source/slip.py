"""A slip in a statement that could not be read: what it looks like, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit, Span
from matrixgen.record import Record
from matrixgen.source.patterns import pattern

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter

UNFIT_PHRASE = (
    r"(?:hold[ \t]+layer|latch[ \t]+layer|unlatch[ \t]+layers|once|change[ \t]+base[ \t]+to"
    r"|tap|start[ \t]+boot[ \t]+loader)\b[ \t]*[^\s,=#]*"
)
"""The beginning of a phrase that types nothing, so that it can be no part of what does."""


class Slip(Record):
    """What a broken line may have: a pattern whose group 1 is wrong, and what is said of it."""

    form: str
    slug: str
    message: str
    help: str


def span_in(reporter: Reporter, mistake: Mistake, place: int, length: int) -> Span:
    """Return the stretch that begins at a place of what was put aside."""
    before = mistake.dropped[:place]
    line = mistake.first_line + before.count("\n")
    return Span.in_line(reporter.path, line, place - before.rfind("\n"), length)


def report_first_of(reporter: Reporter, mistake: Mistake, slips: Iterable[Slip]) -> bool:
    """Report a broken line that one of these slips broke, the first that did; else False."""
    return any(_report(reporter, mistake, one) for one in slips)


def _report(reporter: Reporter, mistake: Mistake, slip: Slip) -> bool:
    for found in pattern(slip.form).finditer(mistake.dropped):
        before = mistake.dropped[: found.start(1)].rstrip()
        begin = len(before.removesuffix(",")) if before.endswith(",") else found.start(1)
        if begin <= mistake.place <= found.end():
            said = found[1].rstrip()
            span = span_in(reporter, mistake, found.start(1), len(said))
            reporter.report(slip.slug, span, slip.message.format(found=said), help=slip.help)
            return True
    return False


def report_no_comma(reporter: Reporter, mistake: Mistake, form: str, word: str, help: str) -> bool:
    """Report a word of the language without its comma; group 1 of the form are the blanks before.

    Where nothing follows the word on its line, a comma alone does not make it right.
    """
    for found in pattern(form).finditer(mistake.dropped):
        start, end = found.end(1), found.end()
        if "=" in mistake.dropped[:start] and mistake.place in (start, end):
            comma = (Edit(span_in(reporter, mistake, found.start(1), 0), ","),)
            reporter.report(
                "syntax",
                span_in(reporter, mistake, start, len(word)),
                f"there is no comma before `{word}`",
                help=help,
                fix=Fix(f"write a comma before `{word}`", comma)
                if end > start + len(word)
                else None,
            )
            return True
    return False
