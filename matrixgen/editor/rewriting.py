"""A text that takes another's place, in the fewest lines; and the canonical form."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from matrixgen.editor.open_file import OpenText
from matrixgen.format.formatted import formatted
from matrixgen.model import Edit, SourceText, Span


def edits_to(source: SourceText, new: str) -> list[Edit]:
    """Return the edits, of whole lines, that make another text of one."""
    now = SourceText(source.path, new)
    old_lines, new_lines = source.lines, now.lines
    matcher = SequenceMatcher(None, old_lines, new_lines, autojunk=False)
    return [
        _edit(source, (start, end), new_lines[first:last])
        for what, start, end, first, last in matcher.get_opcodes()
        if what != "equal"
    ]


def _edit(source: SourceText, old: tuple[int, int], new: tuple[str, ...]) -> Edit:
    """Return the edit that puts lines into the place of others, numbered from 0."""
    start, end = old
    lines = source.lines
    if end < len(lines):
        span = Span(path=source.path, line=start + 1, column=1, end_line=end + 1, end_column=1)
        return Edit(span, "".join(f"{line}\n" for line in new))
    if start == 0:
        span = Span(
            path=source.path,
            line=1,
            column=1,
            end_line=len(lines),
            end_column=len(lines[-1]) + 1,
        )
        return Edit(span, "\n".join(new))
    span = Span(
        path=source.path,
        line=start,
        column=len(lines[start - 1]) + 1,
        end_line=len(lines),
        end_column=len(lines[-1]) + 1,
    )
    return Edit(span, "".join(f"\n{line}" for line in new))


def canonical(text: OpenText, lines: range | None = None) -> Iterator[Edit]:
    """Yield the edits that put a file, or some lines of it, into the canonical form."""
    made = formatted(text.source)
    for edit in edits_to(text.source, made.text) if made.text is not None else ():
        if lines is None or edit.span.line in lines or _touches(edit.span, lines):
            yield edit


def _touches(span: Span, lines: range) -> bool:
    return span.line < lines.stop and span.end_line >= lines.start
