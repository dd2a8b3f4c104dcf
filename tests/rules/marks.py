"""Expectations that stand in a .keys file, on the line that they speak of.

    column c1 on PB0  B      # error: pin-used-twice at PB0
    row    r1 on PD1  B A A  # error: duplicate-visit at A (2nd); warning: some-slug at r1

`at` is followed by the text under the carets; `(2nd)` says which of several on that line. Of a
finding that spans lines, it is the rest of its first line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from matrixgen.model import Diagnostic

MARK = re.compile(r"(error|warning): ([a-z0-9-]+) at (.+?)(?: \((\d)(?:st|nd|rd|th)\))?$")


@dataclass(frozen=True, order=True)
class Finding:
    """What a mark expects, and what a diagnostic is: the same when they agree."""

    line: int
    column: int
    end_column: int
    severity: str
    slug: str


def expected(text: str) -> list[Finding]:
    """Every mark of a file, in file order."""
    found = []
    for number, line in enumerate(text.splitlines(), start=1):
        code, _, comment = line.partition("#")
        for mark in comment.split(";"):
            matched = MARK.search(mark.strip())
            if matched:
                found.append(_finding(number, code, *matched.groups()))
    return sorted(found)


def _finding(number: int, code: str, severity: str, slug: str, marked: str, nth: str | None):
    whole_word = rf"(?<!\S){re.escape(marked)}(?![^\s,:])"
    word = re.escape(marked) if nth else whole_word
    places = [match.start() for match in re.finditer(word, code)]
    assert len(places) >= int(nth or 1), f"line {number} has no `{marked}`"
    start = places[int(nth or 1) - 1] + 1
    return Finding(number, start, start + len(marked), severity, slug)


def actual(text: str, findings: list[Diagnostic]) -> list[Finding]:
    """The diagnostics in the form of marks, in file order."""
    lines = text.splitlines()
    return sorted(
        Finding(
            found.span.line,
            found.span.column,
            found.span.end_column
            if found.span.end_line == found.span.line
            else len(lines[found.span.line - 1].partition("#")[0].rstrip()) + 1,
            found.severity.value,
            found.slug,
        )
        for found in findings
    )
