"""Conflicts that a merge left in a file: they are reported, and nothing else is.

No line of the language can be taken for a marker: in the first column stands a block or a comment.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.model.diagnostic import Diagnostic, Note
from matrixgen.model.text import SourceText, Span
from matrixgen.source.problems import problem

START, OLD, BETWEEN, END = "<<<<<<<", "|||||||", "=======", ">>>>>>>"
MARKERS = (START, OLD, BETWEEN, END)
"""What a line of each kind begins with; `OLD` is there where git shows the common version too."""


def conflicts_in(source: SourceText) -> list[Diagnostic]:
    """Return a finding for each conflict, and for each marker that belongs to none."""
    if not any(f"\n{marker}" in f"\n{source.text}" for marker in MARKERS):
        return []
    return list(_found(source, [(n, _marker(line)) for n, line in enumerate(source.lines, 1)]))


def _marker(line: str) -> str | None:
    """Return the marker that a line is, if it is one."""
    return line[:7] if line[:7] in MARKERS and line[7:8] in ("", " ") else None


def _found(source: SourceText, lines: Sequence[tuple[int, str | None]]) -> Iterator[Diagnostic]:
    markers = [(number, marker) for number, marker in lines if marker]
    while markers:
        first, marker = markers.pop(0)
        inside = _rest(markers) if marker == START else []
        if inside and inside[-1][1] == END:
            yield _conflict(source, first, inside)
        else:
            yield _left_over(source, first, marker)
            inside = []
        del markers[: len(inside)]


def _rest(markers: Sequence[tuple[int, str]]) -> list[tuple[int, str]]:
    """Return the markers that follow a first one, up to the end of its conflict."""
    rest: list[tuple[int, str]] = []
    for number, marker in markers:
        if marker == START:
            break
        rest.append((number, marker))
        if marker == END:
            break
    return rest


def _conflict(source: SourceText, first: int, inside: Sequence[tuple[int, str]]) -> Diagnostic:
    _, _, about = source.line(first).partition(": ")
    what = f"both sides changed {about}" if about else "two versions were merged"
    last = inside[-1][0]
    between = [number for number, marker in inside if marker == BETWEEN]
    return problem("merge-conflict").at(
        _line(source, first),
        f"{what}, and it is not decided which version counts",
        help=f"keep what is right in lines {first} to {last}, and remove the lines with "
        f"`{START}`, `{BETWEEN}` and `{END}`",
        notes=[Note("the other version begins here", _line(source, number)) for number in between],
    )


def _left_over(source: SourceText, line: int, marker: str) -> Diagnostic:
    return problem("merge-conflict").at(
        _line(source, line),
        f"`{marker}` is left over from the conflict of a merge",
        help="remove this line, once what is around it is right",
    )


def _line(source: SourceText, number: int) -> Span:
    return Span.in_line(source.path, number, 1, len(source.line(number).rstrip()))
