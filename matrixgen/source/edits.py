"""Changing a text in places and leaving every other byte as it is."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.model.text import BYTE_ORDER_MARK, Edit, SourceText
from matrixgen.source.patterns import pattern
from matrixgen.source.tree_reader import comments_of


def edited(source: SourceText, edits: Iterable[Edit]) -> str | None:
    """Return the file's text, byte order mark and line ends as they are, with the edits made.

    Spans count lines and columns of `source.text`. Line feeds in an edit become line ends of the
    file's own kind. Lines that are taken out leave their comments behind, each on a line of its
    own. None where two edits overlap, so that no order of them is the right one.
    """
    text = source.original
    starts = _line_starts(text)
    ends = usual_line_end(text)
    placed = sorted((_offset(starts, text, edit), edit.text) for edit in edits)
    pieces, here = [], 0
    for (start, end), new in placed:
        if start < here:
            return None
        if not new and start in starts and end in (*starts, len(text)):
            new = _comments_left(text[start:end])
        pieces += [text[here:start], new.replace("\n", ends)]
        here = end
    return "".join([*pieces, text[here:]])


def _comments_left(lines: str) -> str:
    """Return the comments of lines that are taken out, indented as those were."""
    indent = lines[: len(lines) - len(lines.lstrip(" \t"))]
    return "".join(f"{indent}{comment}\n" for comment in comments_of(lines))


def _line_starts(text: str) -> list[int]:
    """Return where each line starts, after a byte order mark."""
    starts = [int(text.startswith(BYTE_ORDER_MARK))]
    for found in pattern(r"\r\n|\r|\n").finditer(text):
        starts.append(found.end())
    return starts


def usual_line_end(text: str) -> str:
    """Return the line end of a text's first line: a line feed if it has none."""
    found = pattern(r"\r\n|\r|\n").search(text)
    return found.group() if found else "\n"


def _offset(starts: list[int], text: str, edit: Edit) -> tuple[int, int]:
    """Return where an edit begins and ends; a place past the text is its end."""
    span = edit.span
    places = ((span.line, span.column), (span.end_line, span.end_column))
    start, end = (
        starts[line - 1] + column - 1 if line <= len(starts) else len(text)
        for line, column in places
    )
    return start, end
