"""Places of a text as an editor counts them, and as a `Span` does.

The Language Server Protocol 3.17, "Text Documents" and "Position": lines end with a line feed, a
carriage return, or both, and are counted from 0; a place in a line counts UTF-16 code units before
it, and one past the line's end means that end. Spans count lines and code points from 1, and no
byte order mark.
"""

from __future__ import annotations

from typing import NamedTuple

from matrixgen.model import Edit, SourceText, Span
from matrixgen.model.text import BYTE_ORDER_MARK
from matrixgen.source.edits import edited

BEYOND_16_BITS = "\uffff"
"""The last letter that is one UTF-16 code unit; those after it are two."""


class At(NamedTuple):
    """A place as an editor counts it."""

    line: int
    character: int


class Stretch16(NamedTuple):
    """From one place to another, as an editor counts them."""

    start: At
    end: At


LineColumn = tuple[int, int]
"""A line and a column of a `Span`."""


def units(text: str) -> int:
    """Return how many UTF-16 code units a text takes."""
    return len(text) + sum(letter > BEYOND_16_BITS for letter in text)


def at(source: SourceText, point: LineColumn) -> At:
    """Return a line and a column as an editor counts them; one outside of the text at its edge."""
    line, column = point
    if line > len(source.lines):
        line, column = source.end
    text = source.line(line)
    mark = int(line == 1 and source.original.startswith(BYTE_ORDER_MARK))
    return At(max(line, 1) - 1, mark + units(text[: column - 1]))


def stretch(source: SourceText, span: Span) -> Stretch16:
    """Return a span as an editor counts it."""
    return Stretch16(at(source, span.start), at(source, span.end))


def point(source: SourceText, place: At) -> LineColumn:
    """Return the line and column of an editor's place; one that is nowhere is at the nearest."""
    line, character = max(place.line, 0), max(place.character, 0)
    if line >= len(source.lines):
        return source.end
    if line == 0 and source.original.startswith(BYTE_ORDER_MARK):
        character = max(character - 1, 0)
    text = source.lines[line]
    if text.isascii():
        return line + 1, min(character, len(text)) + 1
    column = 0
    for letter in text:
        character -= units(letter)
        if character < 0:
            break
        column += 1
    return line + 1, column + 1


def span_of(source: SourceText, start: At, end: At) -> Span:
    """Return the span between two places of an editor, whichever comes first."""
    return Span.over(source.path, *sorted((point(source, start), point(source, end))))


def offset(source: SourceText, point: LineColumn) -> int:
    """Return where a line and a column are in `source.text`."""
    line, column = point
    return sum(len(one) + 1 for one in source.lines[: line - 1]) + column - 1


def changed_text(text: str, start: At, end: At, new: str) -> str:
    """Return a text with another one in the place of a stretch of it, line ends as they are."""
    source = SourceText("", text)
    edit = Edit(span_of(source, start, end), new)
    changed = edited(source, [edit])
    return text if changed is None else changed
